// A rectangular shell with round corners, from the figures somebody reads off a data sheet. Shell frame:
// origin in the middle, x toward the deep end. The core checks what comes of it.
import type { ShellRecord, Vertex } from '../core/types.ts';

export interface RectangleDraft {
  name: string;
  length: number;
  width: number;
  /** Radius of the corners. */
  corner: number;
  /** Depth below the rim of the floor at the shallow end and at the deep end. */
  shallow: number;
  deep: number;
  /** Where the floor breaks and starts to fall, from the shallow end. */
  break: number;
  coping: number;
  waterline: number;
}

/** Bulge of a quarter circle: the tangent of a quarter of 90 degrees. */
const QUARTER = Math.SQRT2 - 1;

/** The record of a draft. */
export function rectangleShell(draft: RectangleDraft): ShellRecord {
  const { length, width, corner, shallow, deep } = draft;
  const x = length / 2;
  const y = width / 2;
  const from = -x;
  const at = from + draft.break;
  const band = (x0: number, x1: number): Vertex[] => [
    [x0, -y],
    [x1, -y],
    [x1, y],
    [x0, y],
  ];
  return {
    name: draft.name,
    outline: roundedRectangle(x, y, corner),
    floor: [
      { kind: 'shallow', outline: band(from, at), depths: [shallow, shallow, shallow, shallow] },
      { kind: 'slope', outline: band(at, x), depths: [shallow, deep, deep, shallow] },
    ],
    coping_width: draft.coping,
    waterline: draft.waterline,
  };
}

function roundedRectangle(x: number, y: number, corner: number): Vertex[] {
  if (corner <= 0) {
    return [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ];
  }
  return [
    [-x + corner, -y],
    [x - corner, -y, QUARTER],
    [x, -y + corner],
    [x, y - corner, QUARTER],
    [x - corner, y],
    [-x + corner, y, QUARTER],
    [-x, y - corner],
    [-x, -y + corner, QUARTER],
  ];
}
