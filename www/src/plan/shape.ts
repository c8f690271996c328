// A shape being changed on the plan: its handles are dragged there (see gesture.ts), and its picked corner or
// edge answers to the buttons of ShapeBar.tsx and to keys. Any panel may begin it.
import { ask } from '../core/planner.ts';
import type { Outcome, ShapeAction, ShapeTarget } from '../core/types.ts';
import { refresh } from '../state/actions.ts';
import { announce, shaping } from '../state/store.ts';
import { english, type English } from '../words/words.ts';
import { askForFrame } from './frame.ts';
import { heldOff } from './lock.ts';

const NOT_DONE: Outcome = { ok: false, findings: [] };

/** Begins to change a shape. */
export function changeShape(target: ShapeTarget): void {
  ask((p) => p.choose_shape(target), undefined);
  const shaped = ask((p) => p.shaped(), undefined);
  shaping.value = shaped ? { target, shaped } : null;
  document.querySelector<HTMLElement>('.plan-canvas')?.focus({ preventScroll: true });
  askForFrame();
}

/** Ends it; what was changed stays changed. */
export function endShape(): void {
  ask((p) => p.choose_shape(undefined), undefined);
  shaping.value = null;
  askForFrame();
}

/** Takes over what the core says of the shape. */
export function takeShape(): void {
  const now = shaping.value;
  if (!now) return;
  const shaped = ask((p) => p.shaped(), undefined);
  shaping.value = shaped ? { ...now, shaped } : null;
}

/** What a button or a key does. */
export function shapeDo(what: ShapeAction): Outcome {
  const outcome = ask((p) => p.shape_do(what), NOT_DONE);
  refresh();
  const shaped = shaping.value?.shaped;
  announce.value = shaped?.word || shaped?.says || '';
  return outcome;
}

const KEYS: Record<string, ShapeAction> = {
  n: 'next',
  p: 'before',
  insert: 'add',
  i: 'add',
  delete: 'remove',
  backspace: 'remove',
  b: 'bend',
  q: 'square',
};

/** A key on the plan; says whether it was one of the shape's. */
export function shapeKey(event: KeyboardEvent, way: [number, number] | undefined, step: number): boolean {
  const now = shaping.value;
  if (!now || event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.key === 'Escape') {
    endShape();
    return true;
  }
  const whole = now.shaped.picked === null && (typeof now.target === 'string' || !('feature' in now.target));
  if (way) {
    if (!whole && !heldOff()) shapeDo({ nudge: { east: way[0] * step, north: way[1] * step } });
    return true;
  }
  const does = KEYS[event.key.toLowerCase()];
  if (does && (does === 'next' || does === 'before' || !heldOff())) shapeDo(does);
  return does !== undefined;
}

/** What the keys do, for the sheet that lists them. */
export const SHAPE_KEYS: [English, English][] = [
  [english('N and P'), english('pick the next corner or edge, or the one before')],
  [english('Arrows'), english('move what is picked by 1 in (1 cm); with Shift by 1 ft (10 cm)')],
  [english('I'), english('add a corner')],
  [english('Del'), english('take the picked corner out')],
  [english('B'), english('bend the picked edge, or make it straight')],
  [english('Q'), english('make nearly square corners square')],
  [english('Esc'), english('end the change; it stays made')],
];
