// The guided first site: the planner itself on an invented lot, with one hint at a time above the plan.
import { effect, signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import { openText } from '../jobs/open.ts';
import { ledger, openedClearance, sheet, step } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { HINTS, next, type Seen } from './hints.ts';

const LOT = 'lot 100 by 140 ft, house 50 by 34 ft set back 35 ft';

/** The hint that is shown, and what was seen when it came up; `null` without the guide. */
const at = signal<{ hint: number; then: Seen } | null>(null);

function seen(): Seen {
  const now = ledger.value;
  const shell = now?.shell ? { at: now.shell.at, heading: now.shell.heading_value } : null;
  return { shell, openedClearance: openedClearance.value, step: step.value, sheet: sheet.value, name: now?.name ?? '' };
}

const show = (hint: number): void => void (at.value = { hint, then: seen() });

effect(() => {
  const now = seen();
  const shown = at.peek();
  if (!shown || shown.hint >= HINTS.length) return;
  const hint = next(shown.hint, now, shown.then);
  if (hint !== shown.hint) at.value = { hint, then: now };
});

/** Opens the invented lot and begins. */
export function beginGuide(): void {
  const lot = ask((p) => p.read_description(LOT), undefined);
  if (lot?.kind !== 'made' || !openText(lot.site, phrase('The first site'))) return;
  openedClearance.value = null;
  step.value = 'shell';
  show(0);
}

export function Guide() {
  const shown = at.value;
  if (!shown) return null;
  const hint = HINTS[shown.hint];
  const end = () => (at.value = null);
  return (
    <section class="guide keep-bar" aria-label={phrase('First site')}>
      <p aria-live="polite">
        {hint ? (
          <>
            <b class="guide-count">
              {phrase('{number} of {all}', { number: shown.hint + 1, all: HINTS.length })}
            </b>{' '}
            {phrase(hint.words)}
          </>
        ) : (
          phrase('That is the whole way. Next: your own lot, by its deed, its corners or a line of words.')
        )}
      </p>
      <div class="buttons">
        {hint?.help && (
          <button
            type="button"
            onClick={() => {
              if (hint.help?.step) step.value = hint.help.step;
              if (hint.help?.sheet) sheet.value = hint.help.sheet;
            }}
          >
            {phrase(hint.help.name)}
          </button>
        )}
        {hint && (
          <button type="button" onClick={() => show(shown.hint + 1)}>
            {phrase('Skip')}
          </button>
        )}
        <button type="button" class={hint ? '' : 'main'} onClick={hint ? end : () => (end(), (sheet.value = 'welcome'))}>
          {hint ? phrase('End the hints') : phrase('Start a job')}
        </button>
      </div>
    </section>
  );
}
