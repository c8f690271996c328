// The marks in the margin: a tick, a cross, a ring, a ring with a query or a bar in it. Shape tells, color only helps.
import type { Standing } from '../core/types.ts';
import { english, type English } from '../words/words.ts';

export type MarkKind = 'fits' | 'short' | 'open' | 'unchecked' | 'reserved';

/** What each verdict is marked with. */
export const MARKS: Record<Standing, MarkKind> = {
  'not-placed': 'open',
  conflict: 'short',
  short: 'short',
  unchecked: 'unchecked',
  reserved: 'reserved',
  holds: 'fits',
};

/** Each verdict where there is room for two or three words. */
export const STANDING_WORDS: Record<Standing, English> = {
  'not-placed': english('No shell yet'),
  conflict: english('Conflict'),
  short: english('Falls short'),
  unchecked: english('Not all checked'),
  reserved: english('With reservations'),
  holds: english('Holds'),
};

const SHAPES: Record<MarkKind, string> = {
  fits: 'M5 13l5 5L19 7',
  short: 'M6 6l12 12M18 6L6 18',
  open: 'M12 5a7 7 0 1 0 .01 0z',
  unchecked: 'M12 2.5a9.5 9.5 0 1 0 .01 0z M9.3 9.6a2.7 2.7 0 1 1 3.9 2.5c-.9.5-1.2 1-1.2 2 M12 17.2v.01',
  reserved: 'M12 2.5a9.5 9.5 0 1 0 .01 0z M12 7.3v5.4 M12 16.7v.01',
};

export function Mark({ kind }: { kind: MarkKind }) {
  return (
    <svg class="mark" data-kind={kind} viewBox="0 0 24 24" aria-hidden="true">
      <path d={SHAPES[kind]} />
    </svg>
  );
}
