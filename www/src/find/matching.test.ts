import { expect, test } from 'vitest';
import { matching } from './matching.ts';

const things = ['Zoom in', 'Total stone', 'Stone, loose', 'Line up with the wall', 'Water to side line'].map((name) => ({
  name,
  aside: '',
  does: () => {},
}));
const names = (typed: string): string[] => matching(typed, things).map((it) => it.name);

test('every word is looked for at the start of a word, in any order', () => {
  expect(names('li wat')).toEqual(['Water to side line']);
  expect(names('tone')).toEqual([]);
});

test('what begins with it comes first', () => {
  expect(names('stone')).toEqual(['Stone, loose', 'Total stone']);
});

test('nothing typed leaves everything', () => {
  expect(names('  ')).toHaveLength(things.length);
});
