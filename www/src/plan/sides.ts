// A tap on a side of the lot, while the step Lot is open: it opens the card of that side, or says that the side
// lies on the street when that was asked.
import { ask } from '../core/planner.ts';
import { chosenSide, shaping, step } from '../state/store.ts';
import { current, siteAt } from './view.ts';

/** Takes a tap at a place on the canvas; `reach` in css pixels. */
export function tapSide(at: { x: number; y: number }, reach: number): boolean {
  if (step.value !== 'lot' || shaping.value) return false;
  const [x, y] = siteAt(current.view, at.x, at.y);
  const course = ask((p) => p.side_at(x, y, reach / current.view.scale), undefined);
  if (course === undefined) return false;
  chosenSide.value = course;
  return true;
}
