// Rates as they are typed: for the unit in which the open job shows the quantity.
import { ask } from '../core/planner.ts';
import type { Rate, Reading } from '../core/types.ts';
import { unread } from '../fields/fields.tsx';

/** What a typed rate of a quantity is understood as. */
export const readRate = (typed: string, key: string): Reading => ask((p) => p.read_rate(typed, key), undefined) ?? unread();

/** The rates with another one of a quantity, or without it. A rate keeps its place: of two that pay for the same thing the
    first one counts. */
export function withRate(rates: Rate[], key: string, rate: number | null): Rate[] {
  if (rate === null) return rates.filter((it) => it.key !== key);
  const per = ask((p) => p.rate_per(key), undefined);
  const next: Rate = { key, rate, ...(per ? { per } : {}) };
  const known = rates.some((it) => it.key === key);
  return known ? rates.map((it) => (it.key === key ? next : it)) : [...rates, next];
}
