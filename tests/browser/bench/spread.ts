// Many times in three figures.
export interface Spread {
  median: number;
  p95: number;
  most: number;
}

export function spread(times: number[]): Spread {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * sorted.length)] ?? 0;
  return { median: at(0.5), p95: at(0.95), most: sorted.at(-1) ?? 0 };
}
