// What each stage of the work is, in a sentence: for those who do not see it, and for those who do.
import type { SpaceRecord } from '../paper/messages.ts';

const WORDS = [
  'The lot as it is.',
  'Rim, edge of the dig and edge of the deck are marked on the ground; the dig is tinted.',
  'The hole is dug, and its spoil is piled.',
  'The stone base is laid on the bottom.',
  'The shell stands on its base.',
  'Stone fills the room beside the shell up to the collar; water rises with it.',
  'Collar and deck are poured; fill and banks are graded.',
  'Done: what was left lying is hauled off.',
];

/** The stage that is shown first: everything that is built, where anything is. */
export const firstStage = ({ placed }: SpaceRecord): number => (placed ? 6 : 0);

/** A stage in words, with its figures. */
export function stageWords({ labels }: SpaceRecord, stage: number): string {
  const figures = labels.filter(({ from, to, text }) => from <= stage && stage <= to && /\d/.test(text));
  const told = figures.map(({ text }) => text).join('; ');
  return [WORDS[stage] ?? '', told && `${told}.`].filter(Boolean).join(' ');
}
