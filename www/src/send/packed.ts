// Bodies and lines small enough to travel in a file: corners that meet are kept once, and every place stands on a grid of
// 65,536 steps over the longest side of the scene, which is a millimeter or two of a lot. Pure.

/** What is drawn, as text. */
export interface Packed {
  /** The grid: its first place, and the length of a step, meters. */
  low: [number, number, number];
  step: number;
  /** Of each body: how many places it has, and how many corners its triangles have. */
  bodies: [places: number, corners: number][];
  /** Of each line: how many points. */
  lines: number[];
  /** Base64 (RFC 4648, section 4) of whole numbers, least byte first: of each body its places (three of 16 bits) and its corners
      (numbers of places, of 16 bits, or of 32 where it has more places than that), then of each line its points. */
  data: string;
}

/** The drawn scene: nine figures to a triangle, three to a point, meters. */
export interface Loose {
  corners: Float32Array<ArrayBuffer>[];
  points: Float32Array<ArrayBuffer>[];
}

/** Steps along a side of the grid. */
const STEPS = 0xffff;

/** Numbers from here on want 32 bits. */
const MANY = 0x10000;

/** So many characters are made of bytes at once. */
const RUN = 0x8000;

/** The grid that holds every place. */
function gridOf(all: readonly Float32Array[]): Pick<Packed, 'low' | 'step'> {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const figures of all) {
    figures.forEach((value, i) => {
      low[i % 3] = Math.min(low[i % 3] ?? 0, value);
      high[i % 3] = Math.max(high[i % 3] ?? 0, value);
    });
  }
  const span = Math.max(...high.map((it, i) => it - (low[i] ?? 0)));
  return Number.isFinite(span) ? { low, step: span / STEPS || 1 } : { low: [0, 0, 0], step: 1 };
}

export function packed({ corners, points }: Loose): Packed {
  const { low, step } = gridOf([...corners, ...points]);
  const onGrid = (figures: Float32Array): Uint16Array =>
    Uint16Array.from(figures, (value, i) => Math.round((value - (low[i % 3] ?? 0)) / step));
  const parts: (Uint16Array | Uint32Array)[] = [];
  const bodies = corners.map((figures): [number, number] => {
    const { places, numbers } = merged(onGrid(figures));
    const count = places.length / 3;
    parts.push(places, count < MANY ? Uint16Array.from(numbers) : numbers);
    return [count, numbers.length];
  });
  const lines = points.map((figures) => figures.length / 3);
  parts.push(...points.map(onGrid));
  return { low, step, bodies, lines, data: base64(bytesOf(parts)) };
}

/** Every place once, and which one each corner is. */
function merged(steps: Uint16Array): { places: Uint16Array; numbers: Uint32Array } {
  const known = new Map<number, number>();
  const places: number[] = [];
  const numbers = new Uint32Array(steps.length / 3);
  for (let i = 0; i + 2 < steps.length; i += 3) {
    const [x, y, z] = [steps[i] ?? 0, steps[i + 1] ?? 0, steps[i + 2] ?? 0];
    // 48 bits, which a number holds exactly.
    const key = (x * MANY + y) * MANY + z;
    let number = known.get(key);
    if (number === undefined) {
      number = known.size;
      known.set(key, number);
      places.push(x, y, z);
    }
    numbers[i / 3] = number;
  }
  return { places: Uint16Array.from(places), numbers };
}

function bytesOf(parts: readonly (Uint16Array | Uint32Array)[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(parts.reduce((sum, it) => sum + it.byteLength, 0)));
  let at = 0;
  for (const part of parts) {
    const wide = part.BYTES_PER_ELEMENT;
    for (const value of part) {
      if (wide === 4) view.setUint32(at, value, true);
      else view.setUint16(at, value, true);
      at += wide;
    }
  }
  return new Uint8Array(view.buffer);
}

function base64(bytes: Uint8Array): string {
  let letters = '';
  for (let i = 0; i < bytes.length; i += RUN) letters += String.fromCharCode(...bytes.subarray(i, i + RUN));
  return btoa(letters);
}

export function unpacked({ low, step, bodies, lines, data }: Packed): Loose {
  const letters = atob(data);
  const view = new DataView(Uint8Array.from(letters, (it) => it.charCodeAt(0)).buffer);
  let at = 0;
  const places = (count: number): Float32Array<ArrayBuffer> => {
    const found = new Float32Array(count * 3);
    for (let i = 0; i < found.length; i += 1, at += 2) found[i] = (low[i % 3] ?? 0) + view.getUint16(at, true) * step;
    return found;
  };
  const corners = bodies.map(([count, length]) => {
    const known = places(count);
    const found = new Float32Array(length * 3);
    const wide = count < MANY ? 2 : 4;
    for (let i = 0; i < length; i += 1, at += wide) {
      const number = wide === 2 ? view.getUint16(at, true) : view.getUint32(at, true);
      found.set(known.subarray(number * 3, number * 3 + 3), i * 3);
    }
    return found;
  });
  return { corners, points: lines.map(places) };
}
