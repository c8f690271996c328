// A mouse and a finger that do the same things. The finger's events are real touches, sent through the
// browser's own input.
import type { CDPSession, Page } from '@playwright/test';
import type { Spot } from './site.ts';

export interface Hand {
  down(at: Spot): Promise<void>;
  /** Moves there in steps. */
  to(at: Spot): Promise<void>;
  up(): Promise<void>;
}

const STEPS = 12;

export function mouse(page: Page): Hand {
  return {
    async down(at) {
      await page.mouse.move(at.x, at.y);
      await page.mouse.down();
    },
    to: (at) => page.mouse.move(at.x, at.y, { steps: STEPS }),
    up: () => page.mouse.up(),
  };
}

export async function finger(page: Page): Promise<Hand> {
  const browser: CDPSession = await page.context().newCDPSession(page);
  let last: Spot = { x: 0, y: 0 };
  let begun: Promise<unknown> = Promise.resolve();
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: Spot[]) =>
    browser.send('Input.dispatchTouchEvent', { type, touchPoints });
  return {
    // The next events follow at once, not when the page has answered: a finger that rests for half a second presses, and a
    // busy machine must not make a drag into that.
    async down(at) {
      last = at;
      begun = send('touchStart', [at]);
    },
    async to(at) {
      const from = last;
      const moves = Array.from({ length: STEPS }, (_, step) => {
        const part = (step + 1) / STEPS;
        return { x: from.x + (at.x - from.x) * part, y: from.y + (at.y - from.y) * part };
      });
      last = at;
      await Promise.all([begun, ...moves.map((move) => send('touchMove', [move]))]);
    },
    async up() {
      const lifted = send('touchEnd', []);
      await begun;
      await lifted;
    },
  };
}

/** Two fingers that start and end at these places. */
export async function pinch(page: Page, from: [Spot, Spot], to: [Spot, Spot]): Promise<void> {
  const browser = await page.context().newCDPSession(page);
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number; id: number }[]) =>
    browser.send('Input.dispatchTouchEvent', { type, touchPoints });
  const between = (part: number) =>
    from.map((start, id) => {
      const end = to[id] ?? start;
      return { id, x: start.x + (end.x - start.x) * part, y: start.y + (end.y - start.y) * part };
    });
  await send('touchStart', between(0));
  for (let step = 1; step <= STEPS; step += 1) await send('touchMove', between(step / STEPS));
  await send('touchEnd', []);
}
