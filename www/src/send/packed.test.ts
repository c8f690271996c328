import { expect, test } from 'vitest';
import { packed, unpacked } from './packed.ts';

/** Figures that look like chance and are the same every time. */
function figures(count: number, wide: number): Float32Array<ArrayBuffer> {
  let seed = 12345;
  return Float32Array.from({ length: count }, () => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return (seed / 2147483648 - 0.5) * wide;
  });
}

const farthest = (a: Float32Array, b: Float32Array): number => a.reduce((most, it, i) => Math.max(most, Math.abs(it - (b[i] ?? NaN))), 0);

/** Half a step of the grid, and what 32 bits round off of 100 m. */
const MOST = 0.001 + 1e-5;

test('what was packed comes out again within a millimeter, in its order', () => {
  const loose = { corners: [figures(900, 80), figures(9, 3)], points: [figures(30, 200)] };
  const out = unpacked(packed(loose));
  expect(out.corners.map((one) => one.length)).toEqual([900, 9]);
  loose.corners.forEach((one, i) => expect(farthest(one, out.corners[i] ?? new Float32Array())).toBeLessThanOrEqual(MOST));
  expect(farthest(loose.points[0] ?? new Float32Array(), out.points[0] ?? new Float32Array())).toBeLessThanOrEqual(MOST);
});

test('corners that meet are told once', () => {
  const square = new Float32Array([0, 0, 0, 4, 0, 0, 4, 4, 1, 0, 0, 0, 4, 4, 1, 0, 4, 1]);
  const it = packed({ corners: [square], points: [] });
  // Six numbers for six corners, and four places: 0 0 0, +2000 0 0 (4000 in two bytes), 0 +2000 +500, -2000 0 0.
  expect(atob(it.data)).toHaveLength(6 + 3 + 4 + 5 + 4);
  expect(farthest(unpacked(it).corners[0] ?? new Float32Array(), square)).toBeLessThan(1e-6);
});

test('a corner that was told very long ago comes out as it was', () => {
  // Places come again after 20,000 others, which takes three bytes to tell.
  const many = new Float32Array(8_000 * 9);
  for (let i = 0; i < many.length / 3; i += 1) many.set([(i % 20_000) % 600, Math.floor((i % 20_000) / 600), i % 5], i * 3);
  const { corners } = unpacked(packed({ corners: [many, many], points: [] }));
  for (const one of corners) expect(farthest(one, many)).toBeLessThan(1e-4);
});

test('nothing at all is packed as nothing', () => {
  expect(unpacked(packed({ corners: [], points: [] }))).toEqual({ corners: [], points: [] });
  expect(unpacked(packed({ corners: [new Float32Array()], points: [] })).corners[0]?.length).toBe(0);
});
