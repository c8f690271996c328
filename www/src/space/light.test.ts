import { expect, test } from 'vitest';
import { brightness, lay, normalsOf, PLAIN_LIGHT } from './light.ts';

test('a level triangle looks up, one without area nowhere', () => {
  const normals = normalsOf(Float32Array.from([0, 0, 0, 1, 0, 0, 0, 1, 0, 2, 2, 2, 2, 2, 2, 2, 2, 2]));
  expect([...normals]).toEqual([0, 0, 1, 0, 0, 0]);
});

test('what faces the sun is brighter than what is turned away, and nothing is black', () => {
  const [x, y, z] = PLAIN_LIGHT;
  expect(brightness(x, y, z, PLAIN_LIGHT)).toBeGreaterThan(brightness(0, 0, 1, PLAIN_LIGHT));
  expect(brightness(-x, -y, -z, PLAIN_LIGHT)).toBeGreaterThan(0.4);
});

test('a tint is laid on all three corners', () => {
  const colors = new Uint8Array(9);
  lay(colors, Float32Array.from([1, 0.5, 0]), Float32Array.from([0, 0, 1]), PLAIN_LIGHT);
  expect(colors[0]).toBeGreaterThan(200);
  expect(colors[2]).toBe(0);
  expect([...colors.slice(3, 6)]).toEqual([...colors.slice(0, 3)]);
  expect([...colors.slice(6)]).toEqual([...colors.slice(0, 3)]);
});
