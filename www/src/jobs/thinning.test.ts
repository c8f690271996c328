// Versions are thinned out with age, never the named ones, and a day of work does not grow without bound.
import { expect, test } from 'vitest';
import { EVERY, toDrop, type Dated } from './thinning.ts';

const HOUR = 3600_000;
const DAY = 24 * HOUR;

test('young ones stay, and so do those with a name', () => {
  const now = 10 * DAY;
  const young: Dated[] = Array.from({ length: 10 }, (_, id) => ({ id, name: '', made: now - id * EVERY }));
  expect(toDrop(young, now)).toEqual([]);
  const named: Dated[] = Array.from({ length: 10 }, (_, id) => ({ id, name: 'kept', made: id }));
  expect(toDrop(named, now)).toEqual([]);
});

test('of an hour long ago one is kept, of a day longer ago too', () => {
  const now = 100 * DAY;
  const hour = Array.from({ length: 10 }, (_, id) => ({ id, name: '', made: now - 5 * HOUR + id * EVERY }));
  expect(toDrop(hour, now)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
  const day = Array.from({ length: 5 }, (_, id) => ({ id, name: '', made: 90 * DAY + id * 2 * HOUR }));
  expect(toDrop(day, now)).toEqual([1, 2, 3, 4]);
});

test('a year of work in which one is made whenever it may be keeps a bounded number, spread over all of it', () => {
  let kept: Dated[] = [];
  let now = 0;
  for (let day = 0; day < 365; day += 1) {
    for (let step = 0; step < 40; step += 1) {
      now = day * DAY + 8 * HOUR + step * EVERY;
      kept.push({ id: day * 100 + step, name: '', made: now });
      const gone = new Set(toDrop(kept, now));
      kept = kept.filter((it) => !gone.has(it.id));
    }
  }
  expect(kept.length).toBeGreaterThan(40);
  expect(kept.length).toBeLessThanOrEqual(81);
  expect(kept[0]?.id).toBe(0);
  const lastMonth = kept.filter((it) => now - it.made < 30 * DAY && now - it.made > DAY);
  expect(lastMonth.length).toBeGreaterThanOrEqual(28);
});
