import { expect, test } from 'vitest';
import type { Reading } from '../../core/types.ts';
import { lineOf, pointsOf } from './points.ts';

const show = (metres: number): string => metres.toFixed(1);
const read = (text: string): Reading => {
  const value = Number(text);
  if (text !== '' && Number.isFinite(value)) return { ok: true, value, text, ambiguities: [] };
  return { ok: false, message: `"${text}" is no length.`, remedy: 'Type one.', from: 0, to: text.length };
};

test('an unchanged line keeps its exact point', () => {
  const before: [number, number][] = [
    [1.23456, 2.34567],
    [3, 4],
  ];
  const text = before.map((point) => lineOf(point, show)).join('\n');
  expect(pointsOf(`${text}\n5 6\n`, before, show, read)).toEqual({ points: [...before, [5, 6]], faults: [] });
});

test('commas, semicolons, tabs and spaces part the figures; a third is an arc', () => {
  const { points, faults } = pointsOf('1, 2\n1;2\n1\t2\n\n1 2\n1, 2, -0.5', [], show, read);
  expect(faults).toEqual([]);
  expect(points).toEqual([[1, 2], [1, 2], [1, 2], [1, 2], [1, 2, -0.5]]);
});

test('every fault is told with its line', () => {
  const { points, faults } = pointsOf('1, 2\nhere\n3, x\n1, 2, 3, 4\n5, 6, round', [], show, read);
  expect(points).toEqual([[1, 2]]);
  expect(faults.map((fault) => fault.slice(0, 7))).toEqual(['Line 2:', 'Line 3:', 'Line 4:', 'Line 5:']);
});
