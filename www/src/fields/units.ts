// What the units in use are called in a sentence.
import type { System } from '../core/types.ts';
import { english, type English } from '../words/words.ts';

export const UNITS: Record<System, English> = { feet: english('feet'), metres: english('meters') };
