// What is said of a photograph, in whole sentences: to who reads, and to who listens.
import type { Photograph, Stage } from '../core/types.ts';
import { english, phrase, type English } from '../words/words.ts';

export const STAGES: readonly { value: Stage; text: English }[] = [
  { value: 'lot', text: english('Before the work') },
  { value: 'marked', text: english('Marked out') },
  { value: 'dug', text: english('Dug') },
  { value: 'bed', text: english('Base laid') },
  { value: 'set', text: english('Shell set') },
  { value: 'backfilled', text: english('Backfilled') },
  { value: 'decked', text: english('Decked') },
  { value: 'done', text: english('Done') },
];

const LOOKING = [
  english('Looking north'),
  english('Looking northeast'),
  english('Looking east'),
  english('Looking southeast'),
  english('Looking south'),
  english('Looking southwest'),
  english('Looking west'),
  english('Looking northwest'),
] as const;

const EIGHTH = Math.PI / 4;

/** Which way a photograph looks; `bearing` in radians clockwise from north. */
export function looking(bearing: number | undefined): string {
  if (bearing === undefined) return phrase('Direction not entered');
  const eighth = ((Math.round(bearing / EIGHTH) % 8) + 8) % 8;
  return phrase(LOOKING[eighth] ?? LOOKING[0]);
}

export function stageWords(stage: Stage | undefined): string {
  const found = STAGES.find((it) => it.value === stage);
  return found ? phrase(found.text) : '';
}

/** Direction, stage and time, as they stand under it. */
export const factsOf = ({ bearing, stage, when }: Photograph): string[] =>
  [looking(bearing), stageWords(stage), when ?? ''].filter((it) => it !== '');

/** What a photograph is to who does not see it. */
export function alternative(photograph: Photograph, number: number, of: number): string {
  const said = [phrase('Photograph {number} of {all}', { number, all: of }), ...factsOf(photograph), photograph.note ?? ''];
  return said
    .filter((it) => it !== '')
    .map((it) => (/[.!?]$/.test(it) ? it : `${it}.`))
    .join(' ');
}
