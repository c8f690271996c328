// The steps of the job, in its own order. The open one leads into its panel; tapped again it gives the
// room back to the plan.
import { ledgerUp, step, STEPS, type Step } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';

const NAMES: Record<Step, English> = { lot: english('Lot'), yard: english('Yard'), ground: english('Ground'), shell: english('Shell'), dig: english('Dig') };

/** Drawn in a 24 box: a lot with its corners, a house and a tree, ground in layers, a shell, a hole. */
const PICTURES: Record<Step, string> = {
  lot: 'M5 6l13-2 2 15-16 1zM5 6h.01M18 4h.01M20 19h.01M4 20h.01',
  yard: 'M3 20h18M5 20v-8l5-4 5 4v8M17 20v-6M17 14a3 3 0 1 1 .01 0',
  ground: 'M3 9c4-4 6 1 10-2s5-2 8-1M3 14c4-3 7 1 11-1s4-2 7-1M3 19c5-2 8 0 18-1',
  shell: 'M7 7h10a4 4 0 0 1 4 4v2a4 4 0 0 1-4 4H7a4 4 0 0 1-4-4v-2a4 4 0 0 1 4-4zM7 12h6',
  dig: 'M2 7h4l4 11h7l3-11h2M10 18l2-4h4',
};

/** On a small screen the open step and the drawn-up ledger take turns. */
function open(name: Step): void {
  step.value = step.value === name ? null : name;
  ledgerUp.value = false;
}

export function Strip() {
  return (
    <nav class="strip" aria-label={phrase('Steps of the job')}>
      {STEPS.map((name, index) => (
        <button
          key={name}
          type="button"
          class="strip-step"
          aria-expanded={step.value === name}
          aria-controls="step-panel"
          onClick={() => open(name)}
        >
          <svg viewBox="0 0 24 24" aria-hidden="true">
            <path d={PICTURES[name]} />
          </svg>
          <span>
            <span class="strip-number">{index + 1}</span> {phrase(NAMES[name])}
          </span>
        </button>
      ))}
    </nav>
  );
}
