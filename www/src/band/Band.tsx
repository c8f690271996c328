// The band: a string line under the head of the page with the few figures that never leave the screen. While something
// is dragged a tag hangs from each that moves and says by how much.
import type { BandFigure, ClearanceGroup, Standing } from '../core/types.ts';
import { Mark, MARKS, STANDING_WORDS } from '../ledger/Mark.tsx';
import { ledgerFolded } from '../state/arrangement.ts';
import { gesturing, ledger, sheet } from '../state/store.ts';
import { count, heard, phrase } from '../words/words.ts';
import { figures, openFigure, showLedger } from './figures.ts';

export function Band() {
  const now = ledger.value;
  if (!now) return null;
  const { standing } = now.verdict;
  const folded = ledgerFolded.value;
  return (
    <section class="band" aria-label={phrase('Key figures')} data-live={gesturing.value}>
      <button type="button" class="band-verdict" data-kind={MARKS[standing]} data-standing={standing} onClick={showLedger}>
        <Mark kind={MARKS[standing]} />
        <span>{verdictWords(standing, now.clearances)}</span>
      </button>
      <ul class="band-figures">
        {figures.value.map((figure) => (
          <Figure key={figure.key} figure={figure} />
        ))}
      </ul>
      <div class="band-doors">
        <button type="button" onClick={() => (sheet.value = 'find')}>
          {phrase('Find')}
        </button>
        <button type="button" onClick={() => (sheet.value = 'figures')}>
          {phrase('Pin figures')}
        </button>
        <button
          type="button"
          class="band-ledger"
          aria-expanded={!folded}
          aria-controls="ledger-page"
          onClick={() => (ledgerFolded.value = !folded)}
        >
          {folded ? phrase('Show ledger') : phrase('Fold ledger')}
        </button>
      </div>
    </section>
  );
}

/** How many fall short, or the verdict in a few words. */
function verdictWords(standing: Standing, clearances: ClearanceGroup[]): string {
  if (standing !== 'short') return phrase(STANDING_WORDS[standing]);
  return count(clearances.find((it) => it.margin === 'short')?.count ?? 0, '{n} short', '{n} short');
}

function Figure({ figure }: { figure: BandFigure }) {
  const { key, label, shown, change, doubtful } = figure;
  if (!shown) return null;
  return (
    <li>
      <button type="button" class="band-figure" data-key={key} data-doubtful={doubtful} onClick={() => openFigure(key)}>
        <span class="band-label">{heard(label)}</span>
        <span class="band-value">
          {shown.text}
          {doubtful && key !== 'least-room' && <abbr title={phrase('rests on something in doubt')}> (?)</abbr>}
        </span>
        {change && (
          <span class="band-change" key={change.text}>
            {change.text}
          </span>
        )}
      </button>
    </li>
  );
}
