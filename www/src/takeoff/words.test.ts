// How ranges are told, and what kept places are called.
import { expect, test } from 'vitest';
import type { Shown } from '../core/types.ts';
import { freshName } from './CompareSheet.tsx';
import { between } from './words.ts';

const yards = (value: number): Shown => ({ value, unit: 'cu yd', text: `${value} cu yd` });

test('a range names its unit once', () => {
  expect(between(yards(141.2), yards(151))).toBe('141.2 to 151 cu yd');
  expect(between({ value: 14, unit: '', text: '14' }, { value: 16, unit: '', text: '16' })).toBe('14 to 16');
  // Feet and inches are told whole.
  const feet = (text: string): Shown => ({ value: 1, unit: 'ft', text });
  expect(between(feet(`3'-2"`), feet(`3'-6"`))).toBe(`3'-2" to 3'-6"`);
});

test('unknown ground is never left out', () => {
  expect(between(yards(141), yards(151), true)).toContain('more on unknown ground');
  expect(between(yards(141), yards(141), true)).toContain('unknown');
  expect(between(yards(141), yards(141))).toBe('');
});

test('a kept place gets a name that is free', () => {
  expect(freshName([])).toBe('Placement 1');
  expect(freshName([{ name: 'Placement 1' }, { name: 'Placement 3' }])).toBe('Placement 2');
});
