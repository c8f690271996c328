// What each stage of the work is, in a sentence: for those who do not see it, and for those who do.
import type { SpaceRecord } from '../paper/messages.ts';
import { english, type English } from '../words/english.ts';

export const WORDS = [
  english('The lot as it is.'),
  english('Rim, edge of the dig and edge of the deck are marked on the ground; the dig is tinted.'),
  english('The hole is dug, and its spoil is piled.'),
  english('The stone base is laid on the bottom.'),
  english('The shell stands on its base.'),
  english('Stone fills the room beside the shell up to the collar; water rises with it.'),
  english('Collar and deck are poured; fill and banks are graded.'),
  english('Done: what was left lying is hauled off.'),
];

/** The stage that is shown first: everything that is built, where anything is. */
export const firstStage = ({ placed }: SpaceRecord): number => (placed ? 6 : 0);

/** A stage in words, with its figures. `say` and `hear` put them into the language of whoever looks. */
export function stageWords({ labels }: SpaceRecord, stage: number, say: (words: English) => string, hear = (text: string) => text): string {
  const figures = labels.filter(({ from, to, text }) => from <= stage && stage <= to && /\d/.test(text));
  const told = figures.map(({ text }) => hear(text)).join('; ');
  const words = WORDS[stage];
  return [words ? say(words) : '', told && `${told}.`].filter(Boolean).join(' ');
}
