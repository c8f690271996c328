// Where what mends something is entered: the step is opened, its part unfolded, its first field taken in hand.
import type { Entry } from '../core/types.ts';
import { ledgerUp, step, type Step } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';

/** The step each is entered in, and what the button that leads there says. */
const ENTRIES: Record<Entry, { step: Step; words: English }> = {
  lot: { step: 'lot', words: english('Enter the lot') },
  'line-kinds': { step: 'lot', words: english('Set the line kinds') },
  rules: { step: 'lot', words: english('Check the rules') },
  shell: { step: 'shell', words: english('Choose a shell') },
  equipment: { step: 'shell', words: english('Place the equipment pad') },
  groundwater: { step: 'dig', words: english('Set the groundwater level') },
};

/** Frames that a step may take to show itself: the first time its part of the page is fetched. */
const PATIENCE = 300;

export const entryWords = (entry: Entry): string => phrase(ENTRIES[entry].words);

export function openEntry(entry: Entry): void {
  step.value = ENTRIES[entry].step;
  ledgerUp.value = false;
  requestAnimationFrame(() => show(entry, PATIENCE));
}

/** Takes a field in hand once it is there. */
export function takeInHand(field: string, patience = PATIENCE): void {
  requestAnimationFrame(() => {
    const it = document.querySelector<HTMLElement>(field);
    if (it) it.focus();
    else if (patience > 0) takeInHand(field, patience - 1);
  });
}

/** The part of the open step, marked `data-entry`. */
function show(entry: Entry, patience: number): void {
  const part = document.querySelector<HTMLElement>(`#step-panel [data-entry='${entry}']`);
  if (!part || (part.querySelector('[data-loading]') && patience > 0)) {
    if (patience > 0) requestAnimationFrame(() => show(entry, patience - 1));
    return;
  }
  const fold = part.closest('details');
  if (fold) fold.open = true;
  part.scrollIntoView({ block: 'start' });
  const first = part.querySelector<HTMLElement>('.part-body :is(input, select, button, summary), :is(input, select)');
  (first ?? part.querySelector<HTMLElement>('summary, button') ?? part).focus({ preventScroll: false });
}
