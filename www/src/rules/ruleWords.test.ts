import { expect, test } from 'vitest';
import type { MeasuredTo } from '../core/types.ts';
import { freshId } from '../steps/yard/forms.ts';
import { fromWord, wordOf } from './ruleWords.ts';

test('what a rule measures to survives the list', () => {
  const cases: MeasuredTo[] = [
    { 'lot-line': {} },
    { 'lot-line': { kind: 'street-side' } },
    { feature: { kind: 'septic-field' } },
    { part: { part: 'tree-trunk' } },
  ];
  for (const to of cases) expect(fromWord(wordOf(to))).toEqual(to);
});

test('a new thing gets an id of its own', () => {
  expect(freshId('house', [])).toBe('house');
  expect(freshId('house', [{ id: 'house' }, { id: 'house-2' }])).toBe('house-3');
});
