// The open step: what can be set there.
import { Splitter } from '../fields/Splitter.tsx';
import { Later, later } from '../job/Later.tsx';
import { panelWidth } from '../state/arrangement.ts';
import { site, step, type Step } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';
import { ShellStep } from './ShellStep.tsx';

/** What each step is headed with. */
export const HEADS: Record<Step, English> = {
  lot: english('The lot and its rules'),
  yard: english('What stands on and under the lot'),
  ground: english('The ground before the dig'),
  shell: english('The shell and where it stands'),
  dig: english('The dig and what goes in it'),
};

const lot = later(async () => (await import('./LotStep.tsx')).LotStep);
const yard = later(async () => (await import('./YardStep.tsx')).YardStep);
const ground = later(async () => (await import('./GroundStep.tsx')).GroundStep);
const dig = later(async () => (await import('./DigStep.tsx')).DigStep);

export function StepPanel() {
  const open = step.value;
  const now = site.value;
  if (!open || !now) return null;
  return (
    <section class="panel" id="step-panel" aria-labelledby="panel-head">
      <Splitter label={phrase('Width of the step')} width={panelWidth} side="right" />
      <header class="panel-head">
        <h2 id="panel-head">{phrase(HEADS[open])}</h2>
        <button type="button" class="close" aria-label={phrase('Close this step')} onClick={() => (step.value = null)}>
          ×
        </button>
      </header>
      <div class="panel-body" key={open}>
        {open === 'lot' && <Later of={lot} given={{ site: now }} />}
        {open === 'yard' && <Later of={yard} given={{ site: now }} />}
        {open === 'ground' && <Later of={ground} given={{ site: now }} />}
        {open === 'shell' && <ShellStep site={now} />}
        {open === 'dig' && <Later of={dig} given={{ works: now.works }} />}
      </div>
    </section>
  );
}
