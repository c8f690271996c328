// What the guided first site asks for, one thing after the other, and by what it is seen to be done. Pure.
import type { Sheet, Step } from '../state/store.ts';
import { english, type English } from '../words/words.ts';

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
  words: English;
  /** What the button that helps is called, and what it does. */
  help?: { name: English; step?: Step; sheet?: Sheet };
  /** Whether it was done since the hint came up. */
  done: (now: Seen, then: Seen) => boolean;
}

export const HINTS: readonly Hint[] = [
  {
    words: english('Put a shell on the lot: pick one of the cards in the step Shell.'),
    help: { name: english('Open the step Shell'), step: 'shell' },
    done: ({ shell }) => shell !== null,
  },
  {
    words: english('Drag the shell over the plan to where the owner wants it. The figures above follow it; red is too near.'),
    done: (now, then) => now.shell !== null && String(now.shell.at) !== String(then.shell?.at),
  },
  {
    words: english('Turn it by the knob at its deep end, or type its bearing in the step Shell.'),
    help: { name: english('Open the step Shell'), step: 'shell' },
    done: (now, then) => now.shell !== null && now.shell.heading !== then.shell?.heading,
  },
  {
    words: english('Open a clearance in the ledger: it lights up on the plan, and says by which rule it was measured. These rules are examples.'),
    done: (now) => now.openedClearance !== null,
  },
  {
    words: english('Look at how the hole is dug: over-dig, base, soil, deck. Every figure can be typed over.'),
    help: { name: english('Open the step Dig'), step: 'dig' },
    done: ({ step }) => step === 'dig',
  },
  {
    words: english('See what there is to dig, haul and buy, and type what you pay for it.'),
    help: { name: english('Open takeoff and cost'), sheet: 'takeoff' },
    done: ({ sheet }) => sheet === 'takeoff',
  },
  {
    words: english('Show it as the homeowner sees it. From there a picture, a PDF page or a 3D page can be saved to send.'),
    help: { name: english('Show it'), sheet: 'shown' },
    done: ({ sheet }) => sheet === 'shown' || sheet === 'send',
  },
  {
    words: english('Give the job a name, at the top. It is kept on this device by itself; everything you did can be undone.'),
    done: (now, then) => now.name !== then.name,
  },
];

/** The first hint, from the one that is shown on, that is not done yet; its number is that of all of them once all are. */
export function next(shown: number, now: Seen, then: Seen): number {
  const hint = HINTS[shown];
  return hint && !hint.done(now, then) ? shown : Math.min(shown + 1, HINTS.length);
}
