// What the guided first site asks for, one thing after the other, and by what it is seen to be done. Pure.
import type { Sheet, Step } from '../state/store.ts';

/** What of the page a hint looks at. */
export interface Seen {
  /** Where the shell stands; `null` before there is one. */
  shell: { at: readonly [number, number]; heading: number } | null;
  openedClearance: number | null;
  step: Step | null;
  sheet: Sheet;
  name: string;
}

export interface Hint {
  words: string;
  /** What the button that helps is called, and what it does. */
  help?: { name: string; step?: Step; sheet?: Sheet };
  /** Whether it was done since the hint came up. */
  done: (now: Seen, then: Seen) => boolean;
}

export const HINTS: readonly Hint[] = [
  {
    words: 'Put a shell on the lot: pick one of the cards in the step Shell.',
    help: { name: 'Open the step Shell', step: 'shell' },
    done: ({ shell }) => shell !== null,
  },
  {
    words: 'Drag the shell over the plan to where the owner wants it. The figures above follow it; red is too near.',
    done: (now, then) => now.shell !== null && String(now.shell.at) !== String(then.shell?.at),
  },
  {
    words: 'Turn it by the knob at its deep end, or type its bearing in the step Shell.',
    help: { name: 'Open the step Shell', step: 'shell' },
    done: (now, then) => now.shell !== null && now.shell.heading !== then.shell?.heading,
  },
  {
    words: 'Open a clearance in the ledger: it lights up on the plan, and says by which rule it was measured. These rules are examples.',
    done: (now) => now.openedClearance !== null,
  },
  {
    words: 'Look at how the hole is dug: over-dig, base, soil, deck. Every figure can be typed over.',
    help: { name: 'Open the step Dig', step: 'dig' },
    done: ({ step }) => step === 'dig',
  },
  {
    words: 'See what there is to dig, haul and buy, and type what you pay for it.',
    help: { name: 'Open takeoff and cost', sheet: 'takeoff' },
    done: ({ sheet }) => sheet === 'takeoff',
  },
  {
    words: 'Show it as the homeowner sees it. From there a picture, a PDF page or a 3D page can be saved to send.',
    help: { name: 'Show it', sheet: 'shown' },
    done: ({ sheet }) => sheet === 'shown' || sheet === 'send',
  },
  {
    words: 'Give the job a name, at the top. It is kept on this device by itself; everything you did can be undone.',
    done: (now, then) => now.name !== then.name,
  },
];

/** The first hint, from the one that is shown on, that is not done yet; its number is that of all of them once all are. */
export function next(shown: number, now: Seen, then: Seen): number {
  const hint = HINTS[shown];
  return hint && !hint.done(now, then) ? shown : Math.min(shown + 1, HINTS.length);
}
