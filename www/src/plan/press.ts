// The exact numbers of what lies on the plan, for a long press, the right button and the menu key: the step that has
// them opens, and their first field is taken in hand.
import { ask } from '../core/planner.ts';
import { openEntry, takeInHand } from '../ledger/entry.ts';
import { chosenFeature, chosenSide, ledgerUp, ledger, shaping, step } from '../state/store.ts';
import { endAt } from './tapes.ts';
import { current, siteAt } from './view.ts';

/** Opens the numbers of what lies within a reach (css pixels) of a place on the canvas; says whether there are any. */
export function openNumbersAt(at: { x: number; y: number }, reach: number): boolean {
  const { scale } = current.view;
  const [x, y] = siteAt(current.view, at.x, at.y);
  const under = ask((p) => p.hover(x, y, reach / scale, scale), undefined);
  if (shaping.value && under && under !== 'shell' && under !== 'turn') return shapeNumbers();
  if (under === 'shell') return shellNumbers('.standing-place input');
  if (under === 'turn') return shellNumbers('.standing-heading input');
  if (under === 'equipment') {
    openEntry('equipment');
    return true;
  }
  // Of what is not taken in hand, the nearest edge.
  const end = endAt(x, y, reach / scale);
  if (end && 'work' in end) return shellNumbers('.standing-place input');
  if (end && 'side' in end) {
    step.value = 'lot';
    chosenSide.value = end.side;
    takeInHand('.side[data-chosen] summary');
    return shown();
  }
  const feature = end && 'feature' in end ? end.feature : ask((p) => p.feature_id_at(x, y, reach / scale), undefined);
  if (feature !== undefined) {
    step.value = 'yard';
    chosenFeature.value = feature;
    return shown();
  }
  if (under === undefined) return false;
  step.value = 'lot';
  takeInHand('details.picture > summary');
  return shown();
}

/** The numbers of what the keyboard is at: the shape being changed, or the shell. */
export function openNumbers(): boolean {
  if (shaping.value) return shapeNumbers();
  return ledger.value?.shell ? shellNumbers('.standing-place input') : false;
}

function shellNumbers(field: string): boolean {
  step.value = 'shell';
  takeInHand(field);
  return shown();
}

function shapeNumbers(): boolean {
  takeInHand('.draw-bar .draw-typing input:enabled');
  return true;
}

/** On a small screen the drawn-up ledger makes room. */
function shown(): boolean {
  ledgerUp.value = false;
  return true;
}
