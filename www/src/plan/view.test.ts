import { expect, test } from 'vitest';
import { fitted, pulled, siteAt, zoomed, type View } from './view.ts';

const view: View = { x: 10, y: 20, scale: 8, width: 400, height: 300 };

test('north is up and east is right', () => {
  expect(siteAt(view, 200, 150)).toEqual([10, 20]);
  expect(siteAt(view, 208, 150)).toEqual([11, 20]);
  expect(siteAt(view, 200, 142)).toEqual([10, 21]);
});

test('the place under the pointer stays there when zooming', () => {
  for (const [px, py] of [
    [0, 0],
    [200, 150],
    [390, 17],
  ] as const) {
    const before = siteAt(view, px, py);
    const after = siteAt(zoomed(view, px, py, 1.7), px, py);
    expect(after[0]).toBeCloseTo(before[0], 9);
    expect(after[1]).toBeCloseTo(before[1], 9);
  }
});

test('zooming ends somewhere', () => {
  expect(zoomed(view, 0, 0, 1e9).scale).toBe(600);
  expect(zoomed(view, 0, 0, 1e-9).scale).toBe(0.5);
});

test('the place under the finger follows the finger', () => {
  const before = siteAt(view, 100, 100);
  const after = siteAt(pulled(view, 30, -40), 130, 60);
  expect(after[0]).toBeCloseTo(before[0], 9);
  expect(after[1]).toBeCloseTo(before[1], 9);
});

test('the whole lot is on the canvas when fitted, with a margin', () => {
  const fit = fitted(view, [-5, 0, 25, 43]);
  const [left, top] = siteAt(fit, 20, 20);
  const [right, bottom] = siteAt(fit, view.width - 20, view.height - 20);
  expect(left).toBeLessThan(-5);
  expect(right).toBeGreaterThan(25);
  expect(bottom).toBeLessThan(0);
  expect(top).toBeGreaterThan(43);
});
