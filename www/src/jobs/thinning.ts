// Which versions made by the clock are kept: many of the last hour, fewer the longer ago they were.

/** A version is made where the last is so old, milliseconds (arbitrary: a good part of a visit). */
export const EVERY = 5 * 60_000;

const HOUR = 3600_000;
const DAY = 24 * HOUR;

/** Versions younger than `to` are kept one for each `apart`, milliseconds. */
const BANDS = [
  { to: HOUR, apart: EVERY },
  { to: DAY, apart: HOUR },
  { to: 30 * DAY, apart: DAY },
  { to: Number.POSITIVE_INFINITY, apart: 7 * DAY },
];

/** So many made by the clock are kept at most; the oldest go first. */
const MOST = 80;

export interface Dated {
  id: number;
  name: string;
  made: number;
}

/** The ids of the versions to drop. Named ones stay, and so does the first of all. */
export function toDrop(versions: readonly Dated[], now: number): number[] {
  const timed = versions.filter((it) => it.name === '').sort((a, b) => a.made - b.made);
  const first = timed[0];
  const drop: number[] = [];
  const kept: Dated[] = [];
  let slot = '';
  for (const it of timed) {
    const age = Math.max(now - it.made, 0);
    const band = BANDS.findIndex(({ to }) => age < to);
    const apart = BANDS[band]?.apart ?? DAY;
    // The oldest of each stretch stays: a later one would push it out again and again. In the last hour the clock
    // itself keeps them apart.
    const here = band === 0 ? `0 ${it.id}` : `${band} ${Math.floor(it.made / apart)}`;
    if (here === slot && it !== first) drop.push(it.id);
    else kept.push(it);
    slot = here;
  }
  const excess = Math.max(kept.length - MOST, 0);
  return [...drop, ...kept.slice(1, 1 + excess).map((it) => it.id)];
}
