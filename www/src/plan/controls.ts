// What the page's controls cover of the plan. The core is told, so that no label stands under one.
import { ask } from '../core/planner.ts';
import { askForFrame } from './frame.ts';

/** Controls lie over the plan and take the hand; what only passes over it does not. */
const CONTROLS = '.plan-tools, .section-button, .plan-hand';

let covered: number[] = [];
let told: unknown;

/** Left, top, right and bottom of each control within the sheet, css pixels, one after the other. */
function measured(sheet: HTMLElement): number[] {
  const { left, top } = sheet.getBoundingClientRect();
  return [...sheet.querySelectorAll(CONTROLS)].flatMap((it) => {
    const box = it.getBoundingClientRect();
    return box.width > 0 ? [box.left - left, box.top - top, box.right - left, box.bottom - top] : [];
  });
}

/** Keeps watch on the controls over a sheet; gives what ends that. */
export function watchControls(sheet: HTMLElement): () => void {
  const sizes = new ResizeObserver(() => {
    covered = measured(sheet);
    told = undefined;
    askForFrame();
  });
  for (const it of [sheet, ...sheet.querySelectorAll(CONTROLS)]) sizes.observe(it);
  return () => sizes.disconnect();
}

/** Tells the planner, where it does not know yet: a new one knows nothing. */
export function tellControls(): void {
  ask((p) => {
    if (told === p) return;
    p.set_controls(Float64Array.from(covered));
    told = p;
  }, undefined);
}
