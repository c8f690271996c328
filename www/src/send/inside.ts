// What a saved page holds of the job in three dimensions, for its script to read. Types alone, and the ids both sides use.
import type { SpaceRecord } from '../paper/messages.ts';
import type { Packed } from './packed.ts';

export interface Inside {
  record: SpaceRecord;
  packed: Packed;
  /** What its script says, by the English, in the language of whoever saved the page. */
  said: Record<string, string>;
}

export const IDS = { data: 'job', box: 'round', words: 'round-words', choices: 'round-choices', keys: 'round-keys', why: 'round-why' };
