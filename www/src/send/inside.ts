// What a saved page holds of the job in three dimensions, for its script to read. Types alone, and the ids both sides use.
import type { SpaceRecord } from '../paper/messages.ts';
import type { Packed } from './packed.ts';

export interface Inside {
  record: SpaceRecord;
  packed: Packed;
}

/** The stage that is shown first: everything that is built. */
export const FIRST_STAGE = 6;

export const IDS = { data: 'job', box: 'round', words: 'round-words', choices: 'round-choices', keys: 'round-keys', why: 'round-why' };
