// The section under the plan: whether it is open, how heights are drawn, and what the estimate reads on it. Its line
// belongs to the estimate's desk while a hand drags it, and becomes an edit when it is let go.
import { signal } from '@preact/signals';
import { askDesk } from '../door/estimate.ts';
import type { SectionFigures } from '../door/tally.ts';
import { askForFrame } from '../plan/frame.ts';
import { edit } from './actions.ts';
import { tally } from './estimate.ts';

export const sectionOpen = signal(false);

/** How many times as large as lengths heights are drawn. */
export const exaggeration = signal<1 | 2 | 5>(1);

/** The line and the figures on it; none without a shell or a line. */
export const sectionFigures = signal<SectionFigures | null>(null);

/** How near the line a hand must come, css pixels. */
let waiting: [x: number, y: number] | null = null;
let told = '';
let desk: unknown = null;

export function openSection(open: boolean): void {
  sectionOpen.value = open;
  askDesk((d) => d.show_section(open), undefined);
  askForFrame();
}

/** Takes hold of the line near a place of the site: of an end, or of what lies between. */
export function takeSection(x: number, y: number, reach: number, whole: boolean): boolean {
  return sectionOpen.value && askDesk((d) => d.take_section(x, y, reach, whole), false);
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
  askDesk((d) => d.drag_section(x, y), undefined);
}

/** Lets go of the line: it becomes an edit, or goes back to where it was. */
export function dropSection(keep: boolean): void {
  followSection();
  askDesk((d) => d.drop_section(keep), undefined);
  const now = keep ? askDesk((d) => d.section(), undefined) : undefined;
  if (now) edit({ 'set-section': { from: now.from, to: now.to } });
  askForFrame();
}

/** Paints the section and takes over its figures; called by the frame. */
export function paintSection(canvas: HTMLCanvasElement, context: CanvasRenderingContext2D): void {
  if (tally.value.how !== 'there') return;
  const ratio = window.devicePixelRatio || 1;
  const [width, height] = [canvas.clientWidth, canvas.clientHeight];
  const [across, down] = [Math.round(width * ratio), Math.round(height * ratio)];
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
  askDesk((d) => {
    // A desk that was started anew does not know that the line is shown.
    if (d !== desk) d.show_section(true);
    desk = d;
    d.paint_section(context, width, height, ratio, exaggeration.value);
    const figures = d.section() ?? null;
    const text = JSON.stringify(figures);
    if (text !== told) {
      told = text;
      sectionFigures.value = figures;
    }
  }, undefined);
}
