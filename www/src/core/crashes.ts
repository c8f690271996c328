// Counts crashes of what is started again after each.

/** So many crashes within so many milliseconds, and another start is no use. */
const MOST_CRASHES = 3;
const WITHIN_MS = 20_000;

export function crashCounter(): { tooMany(): boolean; forget(): void } {
  let crashes: number[] = [];
  return {
    tooMany() {
      const now = performance.now();
      crashes = [...crashes.filter((at) => now - at < WITHIN_MS), now];
      return crashes.length >= MOST_CRASHES;
    },
    forget() {
      crashes = [];
    },
  };
}
