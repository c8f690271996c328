import { expect, it } from 'vitest';
import type { Point } from '../core/types.ts';
import { spread } from './spread.ts';

it('a pin stands at its place, and no two stand on each other', () => {
  const apart: Point[] = [
    [10, 10],
    [60, 10],
  ];
  expect(spread(apart, 26)).toEqual(apart);
  const stand = spread(Array.from({ length: 60 }, (): Point => [100, 100]), 26);
  expect(stand[0]).toEqual([100, 100]);
  for (const [i, a] of stand.entries()) {
    for (const b of stand.slice(i + 1)) expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeGreaterThan(25.9);
  }
});
