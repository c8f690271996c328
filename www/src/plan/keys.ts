// The keyboard on the plan, while the plan has the focus, and undo and redo anywhere on the page.
import { ask } from '../core/planner.ts';
import type { Point } from '../core/types.ts';
import { edit, editOrTell, redo, say, undo } from '../state/actions.ts';
import { announce, drawing, ledger, shaping, sheet, snapping } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';
import { drawingKey } from './drawing.ts';
import { askForFrame } from './frame.ts';
import { giveUp } from './gesture.ts';
import { heldOff, toggleLock } from './lock.ts';
import { openNumbers } from './press.ts';
import { shapeKey } from './shape.ts';
import { endTape, startTape } from './tapes.ts';
import { current, fitSoon, fitted, look, pulled, zoomed } from './view.ts';

/** How far the paper moves under an arrow key, css pixels. */
const PULL = 60;
const ZOOM = 1.25;

const ARROWS: Record<string, [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** What the plan's keys do, for the sheet that lists them. */
export const PLAN_KEYS: [English, English][] = [
  [english('Arrows'), english('move the shell by 1 in (1 cm); with Shift by 1 ft (10 cm)')],
  [english('[ and ]'), english('turn the shell by 1°; with Shift by 15°')],
  [english('F'), english('flip the shell')],
  [english('A'), english('line it up with the nearest wall or lot line')],
  [english('S'), english('snapping on or off')],
  [english('T'), english('stretch a tape between two things')],
  [english('L'), english('lock the plan, or unlock it')],
  [english('Menu, or Shift + F10'), english('the exact numbers of the shell')],
  [english('+ and −'), english('zoom in and out')],
  [english('0'), english('show the whole lot')],
  [english('Ctrl + arrows'), english('move the view')],
  [english('Esc'), english('give up a drag')],
];

export function zoomBy(factor: number): void {
  const { view } = current;
  look(zoomed(view, view.width / 2, view.height / 2, factor));
  askForFrame();
}

export const zoomIn = (): void => zoomBy(ZOOM);
export const zoomOut = (): void => zoomBy(1 / ZOOM);

export function fitPlan(): void {
  fitSoon();
  askForFrame();
}

/** Widens the view until these places of the site are seen beside the lot; where they are, it stays. */
export function showPlaces(places: Point[]): void {
  const { view } = current;
  const [x0 = 0, y0 = 0, x1 = 1, y1 = 1] = ask((p) => Array.from(p.extent()), [0, 0, 1, 1]);
  const east = places.map(([x]) => x);
  const north = places.map(([, y]) => y);
  const extent = [Math.min(x0, ...east), Math.min(y0, ...north), Math.max(x1, ...east), Math.max(y1, ...north)];
  const inside = places.every(([x, y]) => {
    const [px, py] = [(x - view.x) * view.scale + view.width / 2, view.height / 2 - (y - view.y) * view.scale];
    return px >= 0 && py >= 0 && px <= view.width && py <= view.height;
  });
  if (!inside) look(fitted(view, extent));
  askForFrame();
}

/** How far a key moves the shell in the units in use, meters. */
const step = (large: boolean): number => ask((p) => p.key_step(large), 0);

/** The small step of lengths in the units in use, meters. */
export const smallStep = (): number => step(false);

function arrow(event: KeyboardEvent, [east, north]: [number, number]): void {
  if (event.ctrlKey || event.metaKey || drawing.value || !ledger.value?.shell) {
    look(pulled(current.view, -east * PULL, north * PULL));
    askForFrame();
    return;
  }
  if (heldOff()) return;
  const by = step(event.shiftKey);
  edit({ 'nudge-shell': { east: east * by, north: north * by } });
}

/** Turns the shell by a step; the sense is +1 clockwise, -1 the other way. */
export function turn(sense: number, large: boolean): void {
  const shell = ledger.value?.shell;
  const by = ask((p) => p.key_turn(large), 0);
  if (shell) edit({ 'turn-shell': { heading: shell.heading_value + sense * by } });
}

export function toggleSnap(): void {
  snapping.value = !snapping.value;
  const words = snapping.value
    ? phrase('Snapping is on: what you move and draw is led to corners, edges and their lines.')
    : phrase('Snapping is off.');
  // A sheet over the plan would lie in the way of a hand at work.
  if (drawing.value || shaping.value) announce.value = words;
  else say(words);
}

/** What moves the shell. */
const MOVES: Record<string, () => void> = {
  f: () => void editOrTell('flip-shell', phrase('The shell was not flipped.')),
  a: () => void editOrTell('align-shell', phrase('The shell was not lined up.')),
  '[': () => turn(-1, false),
  ']': () => turn(1, false),
  '{': () => turn(-1, true),
  '}': () => turn(1, true),
};

const LETTERS: Record<string, () => void> = {
  s: toggleSnap,
  l: toggleLock,
  t: startTape,
  '+': zoomIn,
  '=': zoomIn,
  '-': zoomOut,
  _: zoomOut,
  '0': fitPlan,
  home: fitPlan,
};

/** What still works while something is drawn: the view and snapping. */
const VIEW_KEYS = ['+', '=', '-', '_', 'Home', 's', 'S'];

/** A key pressed while the plan has the focus. */
export function planKey(event: KeyboardEvent): void {
  const arrows = ARROWS[event.key];
  if (
    drawingKey(event, arrows, step(event.shiftKey)) ||
    (!drawing.value && shapeKey(event, arrows, step(event.shiftKey)))
  ) {
    event.preventDefault();
    return;
  }
  if (event.key === 'ContextMenu' || (event.key === 'F10' && event.shiftKey)) {
    if (openNumbers()) event.preventDefault();
    return;
  }
  if (event.key === 'Escape') {
    if (giveUp() || endTape()) event.preventDefault();
    return;
  }
  const way = ARROWS[event.key];
  if (way) {
    event.preventDefault();
    arrow(event, way);
    return;
  }
  if (event.ctrlKey || event.metaKey || event.altKey || (drawing.value && !VIEW_KEYS.includes(event.key))) return;
  const key = event.key.toLowerCase();
  const moves = MOVES[key];
  const does = moves ?? LETTERS[key];
  if (!does) return;
  event.preventDefault();
  if (!moves || !heldOff()) does();
}

/** What takes typed letters itself. */
const TYPES = 'input, textarea, select, dialog *';

/** Undo and redo, wherever the focus is, except where a text field undoes its own typing; and finding things. */
export function pageKey(event: KeyboardEvent): void {
  if (event.key === '/' && !(event.target instanceof HTMLElement && event.target.matches(TYPES)) && !sheet.value) {
    event.preventDefault();
    sheet.value = 'find';
    return;
  }
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const inText = event.target instanceof HTMLElement && event.target.matches('textarea, input[data-typing]');
  if (inText) return;
  const key = event.key.toLowerCase();
  if (key === 'z' || key === 'y') {
    event.preventDefault();
    if (key === 'y' || event.shiftKey) redo();
    else undo();
  }
}
