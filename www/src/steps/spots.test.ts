import { expect, test } from 'vitest';
import type { Measure, Reading } from '../door/shapes.ts';
import { readSpots, writeSpots } from './spots.ts';

/** Reads bare numbers as they stand. */
function read(text: string, measure: Measure): Reading {
  const value = Number(text);
  return Number.isFinite(value)
    ? { ok: true, value, text: `${text} (${measure})`, doubts: [] }
    : { ok: false, message: `"${text}" is no figure.`, remedy: 'Write digits.' };
}

test('figures parted by spaces, commas or tabs are read line by line', () => {
  const { spots, faults } = readSpots('1 2 3\r\n\n# a remark\n4,5,6\n7\t8\t9.5\n', read);
  expect(faults).toEqual([]);
  expect(spots).toEqual([
    [1, 2, 3],
    [4, 5, 6],
    [7, 8, 9.5],
  ]);
});

test('every line that is not understood is told by its number', () => {
  const { spots, faults } = readSpots('1 2 3\n4 5\n6 x 8', read);
  expect(spots).toEqual([[1, 2, 3]]);
  expect(faults.map((fault) => fault.line)).toEqual([2, 3]);
  expect(faults[0]?.message).toContain('2 figures');
  expect(faults[1]?.message).toContain('north');
});

test('what is written is read back', () => {
  const spots: [number, number, number][] = [
    [1, -2, 30.25],
    [0, 4, 31],
  ];
  expect(readSpots(writeSpots(spots, (value) => `${value} ft`), read).spots).toEqual(spots);
});
