import { expect, test } from 'vitest';
import { HINTS, next, type Seen } from './hints.ts';

const START: Seen = { shell: null, openedClearance: null, step: null, sheet: null, name: 'New job' };
const placed: Seen = { ...START, shell: { at: [1, 2], heading: 0 } };

test('a hint stays until what it asks for is done', () => {
  expect(next(0, START, START)).toBe(0);
  expect(next(0, placed, START)).toBe(1);
  expect(next(1, placed, placed)).toBe(1);
  expect(next(1, { ...placed, shell: { at: [1, 2.5], heading: 0 } }, placed)).toBe(2);
  expect(next(2, { ...placed, shell: { at: [9, 9], heading: 0 } }, placed)).toBe(2);
  expect(next(2, { ...placed, shell: { at: [1, 2], heading: 0.1 } }, placed)).toBe(3);
  expect(next(3, { ...placed, openedClearance: 0 }, placed)).toBe(4);
  expect(next(4, { ...placed, step: 'dig' }, placed)).toBe(5);
  expect(next(5, { ...placed, sheet: 'takeoff' }, placed)).toBe(6);
  expect(next(6, { ...placed, sheet: 'takeoff' }, placed)).toBe(6);
  expect(next(6, { ...placed, sheet: 'shown' }, placed)).toBe(7);
  expect(next(7, { ...placed, name: 'Larch Road' }, placed)).toBe(HINTS.length);
  expect(next(HINTS.length, placed, placed)).toBe(HINTS.length);
});
