// What the list shows of a job besides its name: figures as the planner shows them, and a small picture of the plan.
import { fitted } from '../plan/view.ts';
import type { Ledger, Planner, Tally } from '../core/types.ts';
import type { Figures } from './model.ts';

/** The size of the small picture, pixels; and how much larger a plan it is painted as, so that its lines are fine. */
export const SMALL = { width: 160, height: 120, shrunk: 2.2 };

export function figuresIn(ledger: Ledger | null, tally: Tally | null): Figures | null {
  if (!ledger) return null;
  const { margin, rows } = ledger.clearances[0] ?? {};
  const least = rows?.[0];
  const cut = tally?.quantities.find((it) => it.key === 'bank-cut');
  return {
    standing: ledger.verdict.standing,
    verdict: ledger.verdict.text,
    room: least ? `${margin === 'short' ? '' : '+'}${least.room.text}` : null,
    short: margin === 'short',
    cut: ledger.shell && cut ? cut.shown.text : null,
  };
}

/** The plan of a planner's site as a picture's address; empty where the browser paints none. */
export function smallPicture(planner: Planner): string {
  const canvas = document.createElement('canvas');
  canvas.width = SMALL.width;
  canvas.height = SMALL.height;
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) return '';
  const [width, height] = [SMALL.width * SMALL.shrunk, SMALL.height * SMALL.shrunk];
  const view = fitted({ x: 0, y: 0, scale: 1, width, height }, planner.extent());
  planner.paint_small(context, { ...view, ratio: 1 / SMALL.shrunk });
  return canvas.toDataURL('image/webp', 0.8);
}
