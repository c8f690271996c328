// What the page does while a hand moves, as the page itself sees it.
import type { Page } from '@playwright/test';

export interface Taken {
  /** Work of each frame, ledger and painting included, milliseconds. */
  frames: number[];
  /** Between one frame of the screen and the next, milliseconds. */
  gaps: number[];
  /** Tasks over 50 ms, milliseconds. */
  long: number[];
}

declare global {
  interface Window {
    taken: Taken;
  }
}

/** Begins to watch. */
export async function watch(page: Page): Promise<void> {
  await page.evaluate(() => {
    window.taken = { frames: [], gaps: [], long: [] };
    window.bench.watchFrames((milliseconds) => window.taken.frames.push(milliseconds));
    new PerformanceObserver((list) => {
      window.taken.long.push(...list.getEntries().map((task) => task.duration));
    }).observe({ type: 'longtask' });
    let last = performance.now();
    const tick = () => {
      const now = performance.now();
      window.taken.gaps.push(now - last);
      last = now;
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });
}

/** What was seen since it was asked last. */
export async function taken(page: Page): Promise<Taken> {
  return page.evaluate(() => {
    const seen = window.taken;
    window.taken = { frames: [], gaps: [], long: [] };
    return seen;
  });
}
