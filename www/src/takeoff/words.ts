// How a takeoff speaks of what is not sure.
import type { Shown } from '../core/types.ts';
import { phrase } from '../words/words.ts';

/** The low and the high of a figure in a few words. */
export function between(low: Shown, high: Shown, open = false): string {
  const words = low.text === high.text ? '' : phrase('{low} to {high}', { low: shortened(low.text, high.unit), high: high.text });
  if (!open) return words;
  return words ? phrase('{range}, more on unknown ground', { range: words }) : phrase('not bounded: the ground is unknown');
}

/** A text without its unit, where the next one has the same. */
function shortened(text: string, unit: string): string {
  return unit !== '' && text.endsWith(` ${unit}`) ? text.slice(0, -unit.length - 1) : text;
}
