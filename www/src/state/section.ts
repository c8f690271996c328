// The section under the plan: whether it is open, how heights are drawn, and what is read on it. Its line is the
// planner's own while a hand drags it, and becomes an edit when it is let go.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { SectionFigures } from '../core/types.ts';
import { askForFrame } from '../plan/frame.ts';
import { edit } from './actions.ts';

export const sectionOpen = signal(false);

/** How many times as large as lengths heights are drawn. */
export const exaggeration = signal<1 | 2 | 5>(1);

/** The line and the figures on it; none without a shell or a line. */
export const sectionFigures = signal<SectionFigures | null>(null);

let waiting: [x: number, y: number] | null = null;
let told = '';

export function openSection(open: boolean): void {
  sectionOpen.value = open;
  ask((p) => p.show_section(open), undefined);
  askForFrame();
}

/** Takes hold of the line near a place of the site: of an end, or of what lies between. */
export function takeSection(x: number, y: number, reach: number, whole: boolean): boolean {
  return sectionOpen.value && ask((p) => p.take_section(x, y, reach, whole), false);
}

/** Has what is held follow the hand in the next frame. */
export function pullSection(x: number, y: number): void {
  waiting = [x, y];
}

/** Does the drag that waits, if any; called by the frame. */
export function followSection(): void {
  if (!waiting) return;
  const [x, y] = waiting;
  waiting = null;
  ask((p) => p.drag_section(x, y), undefined);
}

/** Lets go of the line: it becomes an edit, or goes back to where it was. */
export function dropSection(keep: boolean): void {
  followSection();
  ask((p) => p.drop_section(keep), undefined);
  const now = keep ? ask((p) => p.section(), undefined) : undefined;
  if (now) edit({ 'set-section': { from: now.from, to: now.to } });
  askForFrame();
}

/** Paints the section and takes over its figures; called by the frame. */
export function paintSection(canvas: HTMLCanvasElement, context: CanvasRenderingContext2D): void {
  const ratio = window.devicePixelRatio || 1;
  const [width, height] = [canvas.clientWidth, canvas.clientHeight];
  const [across, down] = [Math.round(width * ratio), Math.round(height * ratio)];
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
  ask((p) => {
    // A planner that was started anew does not know that the line is shown.
    p.show_section(true);
    p.paint_section(context, width, height, ratio, exaggeration.value);
    const figures = p.section() ?? null;
    const text = JSON.stringify(figures);
    if (text !== told) {
      told = text;
      sectionFigures.value = figures;
    }
  }, undefined);
}
