// The ledger: the page of the site notebook that goes with the plan. A verdict, every clearance with its room,
// every quantity with its working, and what to look out for.
import { Splitter } from '../fields/Splitter.tsx';
import { ledgerFolded, ledgerWidth, openGroups } from '../state/arrangement.ts';
import { tally } from '../state/quantities.ts';
import { findings, ledger, ledgerUp, step } from '../state/store.ts';
import type { Topic } from '../core/types.ts';
import { phrase } from '../words/words.ts';
import { Assumed } from './Assumed.tsx';
import { Clearances } from './Clearances.tsx';
import { Cautions } from './Cautions.tsx';
import { places } from './places.ts';
import { Shares } from './Shares.tsx';
import { Tapes } from './Tapes.tsx';
import { Quantities } from './Quantities.tsx';
import { Verdict } from './Verdict.tsx';

/** On a small screen the drawn-up ledger and the open step take turns. */
function pull(): void {
  ledgerUp.value = !ledgerUp.value;
  step.value = null;
}

export function Ledger() {
  const now = ledger.value;
  const up = ledgerUp.value;
  const groups: Topic[] = tally.value ? ['cost', ...tally.value.groups.map((it) => it.group)] : [];
  const placed = places(findings.value, groups, openGroups.value);
  return (
    <aside class="ledger" data-up={up} data-folded={ledgerFolded.value} aria-label={phrase('Ledger')}>
      <Splitter label={phrase('Width of the ledger')} width={ledgerWidth} side="left" />
      <button
        type="button"
        class="ledger-pull"
        aria-expanded={up}
        aria-controls="ledger-page"
        onClick={pull}
      >
        <span class="ledger-grip" aria-hidden="true" />
        {up ? phrase('Show the plan') : phrase('Show the whole ledger')}
      </button>
      <div class="ledger-page" id="ledger-page" tabIndex={-1}>
        {now && (
          <>
            <Verdict verdict={now.verdict} />
            <Cautions findings={placed.get('verdict')} place="verdict" />
            <Clearances clearances={now.clearances} />
            <Shares shares={now.shares} />
            <Cautions findings={placed.get('clearances')} place="clearances" />
            <Tapes tapes={now.tapes} />
            <Quantities findings={placed} placed={now.shell !== null} />
            <Assumed />
          </>
        )}
      </div>
    </aside>
  );
}
