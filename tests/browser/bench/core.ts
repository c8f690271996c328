// The core's share of a drag: the shell on a round about its place, with nothing shown.
import type { Page } from '@playwright/test';

const STEPS = 200;
/** How far out the round leads, meters. */
const REACH = 1;

/** What each step took, milliseconds. */
export async function coreAlone(page: Page): Promise<number[]> {
  return page.evaluate(
    ([steps, reach]) => {
      const { ask } = window.bench;
      const at = ask((p) => p.ledger(0, null).shell?.at, undefined);
      if (!at || ask((p) => p.grab(at[0], at[1], 0.1, 10), undefined) !== 'shell') throw new Error('no shell to drag');
      const times: number[] = [];
      for (let i = 0; i < steps; i += 1) {
        const angle = (i / steps) * 4 * Math.PI;
        const start = performance.now();
        const rows = ask((p) => {
          p.drag_to(at[0] + reach * Math.sin(angle), at[1] + reach * (Math.cos(angle) - 1), false);
          return p.tally().quantities.length;
        }, 0);
        if (rows === 0) throw new Error('a step gave no quantities');
        times.push(performance.now() - start);
      }
      ask((p) => p.cancel(), undefined);
      window.bench.refresh();
      return times;
    },
    [STEPS, REACH] as const,
  );
}
