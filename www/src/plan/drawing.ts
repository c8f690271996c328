// Fingers, mouse and keys while something is drawn. A mouse shows the next point wherever it goes and places it
// with a click; a finger slides a cross that stands above it, so that it does not hide the place, and places on
// lifting; a short tap places under the finger. Two fingers and a mouse that drags move the paper.
import { drawing } from '../state/store.ts';
import { english, type English } from '../words/words.ts';
import { finishDrawing, back, drawAs, follow, giveUpDrawing, place, shift } from './pick.ts';
import { current, siteAt } from './view.ts';

/** How far above a sliding finger the cross stands, css pixels. */
const ABOVE = 64;

/** The mouse moved with no button down. */
export function hoverDrawing(x: number, y: number): void {
  follow(siteAt(current.view, x, y), 'mouse');
}

/** A finger slides: the cross stands above it. */
export function slideDrawing(x: number, y: number): void {
  follow(siteAt(current.view, x, y - ABOVE), 'finger');
}

/** A click or a short tap. */
export function tapDrawing(x: number, y: number, finger: boolean): void {
  follow(siteAt(current.view, x, y), finger ? 'finger' : 'mouse');
  place();
}

/** A key on the plan; says whether it was one of the drawing's. */
export function drawingKey(event: KeyboardEvent, way: [number, number] | undefined, step: number): boolean {
  if (!drawing.value) return false;
  if (event.key === 'Escape') return giveUpDrawing();
  if (way && !event.ctrlKey && !event.metaKey) {
    shift(way[0] * step, way[1] * step);
    return true;
  }
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const does = KEYS[event.key.toLowerCase()];
  if (does) {
    does();
    return true;
  }
  // A figure begins to be typed: it goes into its box.
  if (/^[\d.]$/.test(event.key)) document.querySelector<HTMLInputElement>('.draw-length')?.focus();
  return false;
}

const KEYS: Record<string, () => void> = {
  enter: place,
  ' ': place,
  backspace: back,
  c: finishDrawing,
  l: () => drawAs('straight'),
  a: () => drawAs('arc'),
  r: () => drawAs('rectangle'),
};

/** What the keys do, for the sheet that lists them. */
export const DRAWING_KEYS: [English, English][] = [
  [english('Arrows'), english('move the cross by 1 in (1 cm); with Shift by 1 ft (10 cm)')],
  [english('Enter'), english('place the point')],
  [english('0 to 9'), english('type the length of the next stretch')],
  [english('L, A, R'), english('next a straight line, an arc, a rectangle')],
  [english('Backspace'), english('take the last point back')],
  [english('C'), english('close the outline, or end the line')],
  [english('Esc'), english('give the drawing up')],
];
