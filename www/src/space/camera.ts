// Where one looks from: round a place at a distance, or at eye height on the ground. Angles are radians: azimuth counter-
// clockwise from east, tilt above the level.

/** East, north, up, meters from the scene's origin. */
export type Place = readonly [x: number, y: number, z: number];

/** The ends of a line on the ground. */
type Line = readonly [readonly [number, number], readonly [number, number]];

export interface Orbit {
  kind: 'orbit';
  /** The place looked at. */
  at: Place;
  distance: number;
  /** From the place looked at to the eye. */
  azimuth: number;
  tilt: number;
}

export interface Walk {
  kind: 'walk';
  /** The ground under the feet. */
  feet: Place;
  /** The way looked. */
  azimuth: number;
  tilt: number;
}

export type Look = Orbit | Walk;

/** Eyes above the ground, meters: a person of middling height (common practice, no source). */
export const EYE = 1.6;

const NEAREST = 1.5;
const FARTHEST = 250;
const LOWEST = 0.03;
const HIGHEST = 1.55;

const between = (low: number, value: number, high: number): number => Math.min(high, Math.max(low, value));
const tilted = (tilt: number): number => between(LOWEST, tilt, HIGHEST);

/** A first look at the work: from the south-west, from above. */
export const firstLook = (reach: number): Orbit => ({
  kind: 'orbit',
  at: [0, 0, -0.4],
  distance: between(NEAREST, reach * 3.1, FARTHEST),
  azimuth: -Math.PI * 0.36,
  tilt: 0.62,
});

/** All of it: the cut, where it is cut, or the first look. */
export const wholeLook = ({ section, reach }: { section: Line | null; reach: number }, cut: boolean): Orbit =>
  cut && section ? facing(section, reach) : firstLook(reach);

export function turned<L extends Look>(look: L, aside: number, up: number): L {
  const tilt = look.kind === 'orbit' ? tilted(look.tilt + up) : between(-1.4, look.tilt + up, 1.4);
  return { ...look, azimuth: look.azimuth + aside, tilt };
}

export function nearer(look: Look, times: number): Look {
  return look.kind === 'orbit' ? { ...look, distance: between(NEAREST, look.distance * times, FARTHEST) } : look;
}

/** Moves what is looked at, meters to the right and up on the screen, level with the ground. */
export function shifted(look: Look, right: number, ahead: number, reach: number): Look {
  if (look.kind !== 'orbit') return look;
  const [sine, cosine] = [Math.sin(look.azimuth), Math.cos(look.azimuth)];
  const [x, y, z] = look.at;
  const limit = reach * 6;
  const at: Place = [
    between(-limit, x - sine * right - cosine * ahead, limit),
    between(-limit, y + cosine * right - sine * ahead, limit),
    z,
  ];
  return { ...look, at };
}

/** So many meters ahead, with the ground found there. */
export function walked(look: Walk, meters: number, ground: (x: number, y: number, from: number) => number | undefined): Walk {
  const [x, y, z] = look.feet;
  const [east, north] = [x + Math.cos(look.azimuth) * meters, y + Math.sin(look.azimuth) * meters];
  const level = ground(east, north, z);
  return level === undefined ? look : { ...look, feet: [east, north, level] };
}

/** The eye, and a place that it looks at. */
export function eyeOf(look: Look): { eye: Place; to: Place } {
  const level = Math.cos(look.tilt);
  const way: Place = [Math.cos(look.azimuth) * level, Math.sin(look.azimuth) * level, Math.sin(look.tilt)];
  if (look.kind === 'orbit') {
    const [x, y, z] = look.at;
    const d = look.distance;
    return { eye: [x + way[0] * d, y + way[1] * d, z + way[2] * d], to: look.at };
  }
  const [x, y, z] = look.feet;
  const eye: Place = [x, y, z + EYE];
  return { eye, to: [eye[0] + way[0], eye[1] + way[1], eye[2] + way[2]] };
}

/** A look at the cut, square to its line and from the side that is taken away. */
export function facing(section: Line, reach: number): Orbit {
  const [[ax, ay], [bx, by]] = section;
  const along = Math.atan2(by - ay, bx - ax);
  const long = Math.hypot(bx - ax, by - ay);
  // The work is near the origin: the place of the line nearest to it.
  const share = between(0, -(ax * (bx - ax) + ay * (by - ay)) / (long * long || 1), 1);
  return {
    kind: 'orbit',
    at: [ax + (bx - ax) * share, ay + (by - ay) * share, -0.8],
    distance: between(NEAREST, Math.min(long, reach * 4) * 1.15, FARTHEST),
    azimuth: along - Math.PI / 2,
    tilt: 0.3,
  };
}

/** From where one looks round: to the ground in front of the place looked at. */
export function stoodAt(look: Orbit, reach: number): { x: number; y: number; azimuth: number } {
  const out = Math.min(look.distance, reach * 1.9);
  return {
    x: look.at[0] + Math.cos(look.azimuth) * out,
    y: look.at[1] + Math.sin(look.azimuth) * out,
    azimuth: look.azimuth + Math.PI,
  };
}
