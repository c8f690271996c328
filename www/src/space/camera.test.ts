import { expect, test } from 'vitest';
import { eyeOf, facing, firstLook, nearer, shifted, turned, walked, type Walk } from './camera.ts';

const far = (a: readonly number[], b: readonly number[]): number => Math.hypot(...a.map((v, i) => v - (b[i] ?? 0)));

test('however it is turned, the eye keeps its distance and stays above the level', () => {
  let look = firstLook(8);
  for (let i = 0; i < 50; i += 1) look = turned(look, 0.3, -0.2);
  const { eye, to } = eyeOf(look);
  expect(far(eye, to)).toBeCloseTo(look.distance, 9);
  expect(eye[2]).toBeGreaterThan(to[2]);
  expect(turned(look, 0, 9).tilt).toBeLessThan(Math.PI / 2);
});

test('nearer and farther end somewhere', () => {
  let look = nearer(firstLook(8), 1e-6);
  expect(look.kind === 'orbit' && look.distance).toBe(1.5);
  look = nearer(look, 1e9);
  expect(look.kind === 'orbit' && look.distance).toBe(250);
});

test('a shift to the right moves what is looked at square to the way looked', () => {
  const before = firstLook(8);
  const after = shifted(before, 2, 0, 8);
  const { eye, to } = eyeOf(before);
  if (after.kind !== 'orbit') throw new Error('it is an orbit');
  const moved = [after.at[0] - before.at[0], after.at[1] - before.at[1]];
  expect(Math.hypot(...moved)).toBeCloseTo(2, 9);
  expect((moved[0] ?? 0) * (to[0] - eye[0]) + (moved[1] ?? 0) * (to[1] - eye[1])).toBeCloseTo(0, 9);
});

test('a step follows the ground, and none is made where there is none', () => {
  const stood: Walk = { kind: 'walk', feet: [0, 0, 1], azimuth: 0, tilt: 0 };
  expect(walked(stood, 2, (x) => x / 2).feet).toEqual([2, 0, 1]);
  expect(walked(stood, 2, () => undefined)).toBe(stood);
});

test('the cut is faced from the right of its line', () => {
  const { eye, to } = eyeOf(facing([[-10, 3], [10, 3]], 8));
  expect(to[1]).toBeCloseTo(3, 9);
  expect(eye[1]).toBeLessThan(3);
  expect(eye[0]).toBeCloseTo(to[0], 6);
});
