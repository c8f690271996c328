import { expect, test } from 'vitest';
import { rectangleShell, type RectangleDraft } from './rectangle.ts';

const draft: RectangleDraft = {
  name: 'Typed',
  length: 8,
  width: 4,
  corner: 0.5,
  shallow: 1,
  deep: 2,
  break: 3,
  coping: 0.3,
  waterline: 0.15,
};

test('four sides and four quarter circles', () => {
  const { outline } = rectangleShell(draft);
  expect(outline).toHaveLength(8);
  const bulges = outline.map((corner) => corner[2]).filter((bulge) => bulge !== undefined);
  expect(bulges).toHaveLength(4);
  for (const bulge of bulges) expect(4 * Math.atan(bulge)).toBeCloseTo(Math.PI / 2, 12);
});

test('square corners have no arcs', () => {
  expect(rectangleShell({ ...draft, corner: 0 }).outline).toEqual([
    [-4, -2],
    [4, -2],
    [4, 2],
    [-4, 2],
  ]);
});

test('the floor breaks where it was said to and meets the walls', () => {
  const [shallow, slope] = rectangleShell(draft).floor ?? [];
  expect(shallow?.outline[1]?.[0]).toBe(-1);
  expect(slope?.outline[0]?.[0]).toBe(-1);
  expect(slope?.depths).toEqual([1, 2, 2, 1]);
});
