// Bodies and lines small enough to travel in a file: every place stands on a grid of two millimeters, corners that meet are told
// once, and each is told by how far it is from the one before. Pure.

/** What is drawn, as text. */
export interface Packed {
  /** Of each body: how many corners its triangles have. */
  bodies: number[];
  /** Of each line: how many points. */
  lines: number[];
  /** Base64 (RFC 4648, section 4) of whole numbers, seven bits to a byte, the least first, the eighth bit where more follow. Of each
      corner: how many places of its body ago its own was first told, or 0 for a new one with its steps east, north and up from the
      last new one, 2n for n steps ahead and 2n - 1 for n steps back. Of each point of a line its steps alone. */
  data: string;
}

/** The drawn scene: nine figures to a triangle, three to a point, meters. */
export interface Loose {
  corners: Float32Array<ArrayBuffer>[];
  points: Float32Array<ArrayBuffer>[];
}

/** A step of the grid, meters: less than is seen from anywhere that one can look from. */
const STEP = 0.002;

/** So many characters are made of bytes at once. */
const RUN = 0x8000;

class Writer {
  readonly bytes: number[] = [];
  private last = [0, 0, 0];

  number(value: number): void {
    let left = value;
    while (left > 127) {
      this.bytes.push((left % 128) + 128);
      left = Math.floor(left / 128);
    }
    this.bytes.push(left);
  }

  place(at: readonly number[]): void {
    at.forEach((it, i) => {
      const steps = it - (this.last[i] ?? 0);
      this.number(steps < 0 ? -2 * steps - 1 : 2 * steps);
    });
    this.last = [...at];
  }
}

class Reader {
  private at = 0;
  private readonly last: [number, number, number] = [0, 0, 0];

  constructor(private readonly bytes: Uint8Array) {}

  number(): number {
    let value = 0;
    for (let times = 1; ; times *= 128) {
      const byte = this.bytes[this.at] ?? 0;
      this.at += 1;
      value += (byte % 128) * times;
      if (byte < 128) return value;
    }
  }

  /** Meters. */
  place(): [number, number, number] {
    for (let i = 0; i < 3; i += 1) {
      const told = this.number();
      this.last[i] = (this.last[i] ?? 0) + (told % 2 === 0 ? told / 2 : -(told + 1) / 2);
    }
    const [x, y, z] = this.last;
    return [x * STEP, y * STEP, z * STEP];
  }
}

/** The place of a corner or a point on the grid. */
const placeOf = (figures: Float32Array, i: number): [number, number, number] => {
  const on = (n: number): number => Math.round((figures[i + n] ?? 0) / STEP);
  return [on(0), on(1), on(2)];
};

export function packed({ corners, points }: Loose): Packed {
  const writer = new Writer();
  for (const figures of corners) {
    const known = new Map<string, number>();
    for (let i = 0; i + 2 < figures.length; i += 3) {
      const place = placeOf(figures, i);
      const key = place.join();
      const number = known.get(key);
      writer.number(number === undefined ? 0 : known.size - number);
      if (number !== undefined) continue;
      known.set(key, known.size);
      writer.place(place);
    }
  }
  for (const figures of points) {
    for (let i = 0; i + 2 < figures.length; i += 3) writer.place(placeOf(figures, i));
  }
  const counts = (all: readonly Float32Array[]): number[] => all.map((it) => it.length / 3);
  return { bodies: counts(corners), lines: counts(points), data: base64(Uint8Array.from(writer.bytes)) };
}

function base64(bytes: Uint8Array): string {
  let letters = '';
  for (let i = 0; i < bytes.length; i += RUN) letters += String.fromCharCode(...bytes.subarray(i, i + RUN));
  return btoa(letters);
}

export function unpacked({ bodies, lines, data }: Packed): Loose {
  const reader = new Reader(Uint8Array.from(atob(data), (it) => it.charCodeAt(0)));
  const corners = bodies.map((count) => {
    const found = new Float32Array(count * 3);
    const known: [number, number, number][] = [];
    for (let i = 0; i < found.length; i += 3) {
      const ago = reader.number();
      const place = ago === 0 ? reader.place() : (known[known.length - ago] ?? [0, 0, 0]);
      if (ago === 0) known.push(place);
      found.set(place, i);
    }
    return found;
  });
  const points = lines.map((count) => {
    const found = new Float32Array(count * 3);
    for (let i = 0; i < found.length; i += 3) found.set(reader.place(), i);
    return found;
  });
  return { corners, points };
}
