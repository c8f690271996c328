// Pins beside their places, so that none lies on another: each stands at its place, and where another has that already, round
// it and farther off.
import type { Point } from '../core/types.ts';

const WAYS = 12;
const RINGS = 12;

/** Where pins of a size stand, css pixels, in the order of their places. */
export function spread(places: readonly Point[], size: number): Point[] {
  const stand: Point[] = [];
  for (const place of places) stand.push(free(place, stand, size));
  return stand;
}

function free([x, y]: Point, taken: readonly Point[], size: number): Point {
  for (let ring = 0; ring <= RINGS; ring += 1) {
    for (let way = 0; way < (ring === 0 ? 1 : WAYS); way += 1) {
      const angle = (way / WAYS) * 2 * Math.PI;
      const at: Point = [x + ring * size * Math.sin(angle), y - ring * size * Math.cos(angle)];
      if (taken.every(([a, b]) => Math.hypot(at[0] - a, at[1] - b) >= size - 1e-6)) return at;
    }
  }
  return [x, y];
}
