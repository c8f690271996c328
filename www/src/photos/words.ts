// What is said of a photograph, in whole sentences: to who reads, and to who listens.
import type { Photograph, Stage } from '../core/types.ts';

export const STAGES: readonly { value: Stage; text: string }[] = [
  { value: 'lot', text: 'Before the work' },
  { value: 'marked', text: 'Marked out' },
  { value: 'dug', text: 'Dug' },
  { value: 'bed', text: 'Base laid' },
  { value: 'set', text: 'Shell set' },
  { value: 'backfilled', text: 'Backfilled' },
  { value: 'decked', text: 'Decked' },
  { value: 'done', text: 'Done' },
];

const LOOKING = [
  'Looking north',
  'Looking northeast',
  'Looking east',
  'Looking southeast',
  'Looking south',
  'Looking southwest',
  'Looking west',
  'Looking northwest',
] as const;

const EIGHTH = Math.PI / 4;

/** Which way a photograph looks; `bearing` in radians clockwise from north. */
export function looking(bearing: number | undefined): string {
  if (bearing === undefined) return 'Direction not entered';
  const eighth = ((Math.round(bearing / EIGHTH) % 8) + 8) % 8;
  return LOOKING[eighth] ?? LOOKING[0];
}

export const stageWords = (stage: Stage | undefined): string => STAGES.find((it) => it.value === stage)?.text ?? '';

/** Direction, stage and time, as they stand under it. */
export const factsOf = ({ bearing, stage, when }: Photograph): string[] =>
  [looking(bearing), stageWords(stage), when ?? ''].filter((it) => it !== '');

/** What a photograph is to who does not see it. */
export function alternative(photograph: Photograph, number: number, of: number): string {
  const said = [`Photograph ${number} of ${of}`, ...factsOf(photograph), photograph.note ?? ''];
  return said
    .filter((it) => it !== '')
    .map((it) => (/[.!?]$/.test(it) ? it : `${it}.`))
    .join(' ');
}
