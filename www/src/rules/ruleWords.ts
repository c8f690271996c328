// The words of a clearance rule in lists: what it measures from, and to.
import { FEATURE_KINDS, FEATURE_PARTS, LINE_KINDS, MEASURED_FROM } from '../core/lists.ts';
import type { FeatureKind, LineKind, MeasuredFrom, MeasuredTo } from '../core/types.ts';
import { plain } from '../fields/Choice.tsx';
import { english, phrase, type English } from '../words/words.ts';

const FROM_WORDS: Record<MeasuredFrom, English> = {
  'waters-edge': english("Water's edge"),
  rim: english('Rim, outside of the coping'),
  'deck-edge': english('Deck edge'),
  equipment: english('Equipment pad'),
  dig: english('Top of the dig'),
  steps: english('Steps beside the deck'),
  'spoil-pile': english('Spoil pile'),
  barrier: english('Barrier: its fences and walls'),
};
export const fromOptions = () => MEASURED_FROM.map((value) => ({ value, text: phrase(FROM_WORDS[value]) }));
/** `line`: what stands before the kind of a lot line. */
export const toOptions = (line = phrase('Lot line: ')) => [
  { value: 'line', text: phrase('Every lot line') },
  ...LINE_KINDS.map((kind) => ({ value: `line:${kind}`, text: `${line}${plain(kind).toLowerCase()}` })),
  ...FEATURE_KINDS.map((kind) => ({ value: `feature:${kind}`, text: plain(kind) })),
  ...FEATURE_PARTS.map((part) => ({ value: `part:${part}`, text: plain(part) })),
];

/** What a rule measures to, as one word for the list. */
export function wordOf(to: MeasuredTo): string {
  if ('feature' in to) return `feature:${to.feature.kind}`;
  if ('part' in to) return `part:${to.part.part}`;
  const { kind } = to['lot-line'];
  return kind ? `line:${kind}` : 'line';
}

/** The other way. */
export function fromWord(word: string): MeasuredTo {
  const [what, kind] = word.split(':');
  if (what === 'part') return { part: { part: kind as (typeof FEATURE_PARTS)[number] } };
  if (what === 'feature') return { feature: { kind: kind as FeatureKind } };
  return { 'lot-line': kind ? { kind: kind as LineKind } : {} };
}
