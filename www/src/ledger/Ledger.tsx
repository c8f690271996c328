// The ledger: the page of the site notebook that never leaves. A verdict, every clearance with its room,
// every quantity with its working, and what to look out for.
import { findings, tally } from '../state/quantities.ts';
import { ledger, ledgerUp, step } from '../state/store.ts';
import { Clearances } from './Clearances.tsx';
import { Cautions, type Place } from './Cautions.tsx';
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
  const shown = findings.value;
  const groups: Place[] = tally.value ? ['cost', ...tally.value.quantities.map((it) => it.group)] : [];
  return (
    <aside class="ledger" data-up={up} aria-label="Ledger">
      <button
        type="button"
        class="ledger-pull"
        aria-expanded={up}
        aria-controls="ledger-page"
        onClick={pull}
      >
        <span class="ledger-grip" aria-hidden="true" />
        {up ? 'Show the plan' : 'Show the whole ledger'}
      </button>
      <div class="ledger-page" id="ledger-page" tabIndex={-1}>
        {now && (
          <>
            <Verdict verdict={now.verdict} placed={now.shell !== null} />
            <Cautions findings={shown} place="verdict" />
            <Clearances clearances={now.clearances} placed={now.shell !== null} />
            <Cautions findings={shown} place="clearances" groups={groups} />
            <Quantities revision={now.revision} findings={shown} placed={now.shell !== null} />
          </>
        )}
      </div>
    </aside>
  );
}
