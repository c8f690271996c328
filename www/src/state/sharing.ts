// What the core says comes as new objects each time. A part that says the same as before is replaced by the part that
// was there, so that what shows it need not be rendered again: a drag moves a few figures in each frame, not all.

/** `now`, a value of plain objects and lists nobody else holds yet, with every part that is the same as in `before`
    replaced by it; `before` itself where all of it is. */
export function sharing<T>(before: T | null, now: T): T {
  return shared(before, now) as T;
}

type Parts = Record<string, unknown>;

function shared(before: unknown, now: unknown): unknown {
  if (Object.is(before, now) || !isParts(before) || !isParts(now)) return now;
  if (Array.isArray(before) !== Array.isArray(now)) return now;
  const keys = Object.keys(now);
  let same = keys.length === Object.keys(before).length;
  for (const key of keys) {
    const part = shared(before[key], now[key]);
    now[key] = part;
    same &&= Object.is(part, before[key]);
  }
  return same ? before : now;
}

const isParts = (value: unknown): value is Parts => typeof value === 'object' && value !== null;
