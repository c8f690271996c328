// Fingers and mouse on the plan. One pointer on the shell moves it, on bare ground it pulls the paper; a
// second finger lets go of the shell and zooms. A finger or pen that stays where it is opens the exact numbers of what
// lies there. Moves are kept until the next frame, one per frame.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { DragTarget } from '../core/types.ts';
import { refresh } from '../state/actions.ts';
import { chosenFeature, drawing, held, shaping, snapping, step } from '../state/store.ts';
import { hoverDrawing, slideDrawing, tapDrawing } from './drawing.ts';
import { askForFrame } from './frame.ts';
import { planLocked } from './lock.ts';
import { Palms } from './palm.ts';
import { place } from './pick.ts';
import { openNumbersAt } from './press.ts';
import { takeShape } from './shape.ts';
import { dropSection, pullSection, takeSection } from '../state/section.ts';
import { tapSide } from './sides.ts';
import { tapTape, taping } from './tapes.ts';
import { current, look, pulled, siteAt, zoomed } from './view.ts';

/** How near a pointer must come, css pixels. */
const REACH = { finger: 22, mouse: 10 };
/** A finger that moved less than this has tapped, css pixels. */
const TAP = 6;
/** A finger or a pen that stays for so long presses, milliseconds (common practice, no source). */
const PRESS = 500;
/** The menu that the right button asks for comes so soon after it was lifted, milliseconds (arbitrary). */
const RIGHT_AFTER = 6;

interface Touch {
  x: number;
  y: number;
}

type Hold =
  | { kind: 'nothing' }
  | { kind: 'pressed'; pointer: number }
  | { kind: 'thing'; pointer: number; first: Touch }
  | { kind: 'section'; pointer: number }
  | { kind: 'cross'; pointer: number; first: Touch; last: Touch; slid: boolean }
  | { kind: 'paper'; pointer: number; last: Touch; first: Touch };

/** The name of what the pointer is over, where the plan is to show it. */
export const tip = signal<{ text: string; x: number; y: number } | null>(null);

const fingers = new Map<number, Touch>();
let hold: Hold = { kind: 'nothing' };
let waiting: { x: number; y: number; snap: boolean } | null = null;
let over: DragTarget | undefined;
/** A press has just ended: the browser makes no click of it, which would take the focus from the field it opened. */
let quiet = false;
let pressing = 0;
let heard = 0;
/** When the right button last pulled the paper. */
let pulledAt = -Infinity;
const palms = new Palms();
let pinch: { gap: number; middle: Touch } | null = null;

/** A drag waits for the next frame. */
export const dragWaits = (): boolean => waiting !== null;

/** Does the drag that waits, if any; called by the frame. */
export function takeDrag(): boolean {
  if (!waiting) return false;
  const { x, y, snap } = waiting;
  waiting = null;
  ask((p) => p.drag_to(x, y, snap), undefined);
  takeShape();
  return true;
}

/** Gives up a drag under way: everything is where it was. */
export function giveUp(): boolean {
  if (hold.kind === 'section') {
    hold = { kind: 'nothing' };
    dropSection(false);
    return true;
  }
  if (hold.kind !== 'thing') return false;
  waiting = null;
  hold = { kind: 'nothing' };
  ask((p) => p.cancel(), undefined);
  held.value = null;
  takeShape();
  refresh();
  return true;
}

function at(canvas: HTMLCanvasElement, event: MouseEvent): Touch {
  const box = canvas.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

const reachOf = (event: PointerEvent): number => (event.pointerType === 'touch' ? REACH.finger : REACH.mouse);

/** A hand that was taken for a finger turns out to be at rest: what it did is given up. */
function putDown(): void {
  stopPress();
  if (!giveUp()) hold = { kind: 'nothing' };
  fingers.clear();
  pinch = null;
}

function stopPress(): void {
  window.clearTimeout(pressing);
  window.cancelAnimationFrame(heard);
}

/** After a while the press opens the numbers of what lies there; it neither drags nor taps. */
function beginPress(pointer: number, touch: Touch, reach: number): void {
  stopPress();
  const press = (): void => {
    if (hold.kind !== 'thing' && hold.kind !== 'paper') return;
    giveUp();
    // On bare ground it goes on as it was.
    if (openNumbersAt(touch, reach)) hold = { kind: 'pressed', pointer };
  };
  // A browser tells of moves with its frames, and a frame may have been long: what the finger did meanwhile comes first.
  pressing = window.setTimeout(() => (heard = window.requestAnimationFrame(press)), PRESS);
}

function down(canvas: HTMLCanvasElement, event: PointerEvent): void {
  if (event.pointerType === 'pen') {
    // The hand that holds it may have come first.
    if (fingers.size > 0) putDown();
    palms.pen(event, true);
  }
  if (palms.rests(event)) return;
  const touch = at(canvas, event);
  canvas.setPointerCapture(event.pointerId);
  tip.value = null;
  if (event.pointerType === 'touch') {
    fingers.set(event.pointerId, touch);
    if (fingers.size === 2) return startPinch();
    if (fingers.size > 2) return;
  }
  if (hold.kind !== 'nothing') return;
  if (drawing.value && event.pointerType === 'touch') {
    hold = { kind: 'cross', pointer: event.pointerId, first: touch, last: touch, slid: false };
    return;
  }
  if (drawing.value || taping.value) {
    hold = { kind: 'paper', pointer: event.pointerId, last: touch, first: touch };
    return;
  }
  const reach = reachOf(event);
  if (event.pointerType !== 'mouse') beginPress(event.pointerId, touch, reach);
  const { scale } = current.view;
  const [x, y] = siteAt(current.view, touch.x, touch.y);
  const free = event.button === 0 && !planLocked.value;
  const cut = (whole: boolean): boolean =>
    free && !shaping.value && takeSection(x, y, reach / scale, whole);
  if (cut(false)) return holdSection(canvas, event);
  const taken = free ? ask((p) => p.grab(x, y, reach / scale, scale), undefined) : undefined;
  if (taken) {
    hold = { kind: 'thing', pointer: event.pointerId, first: touch };
    held.value = taken;
    canvas.style.cursor = 'grabbing';
    // A shape may reach farther afterwards: the plan is not fitted to it anew.
    if (shaping.value) look(current.view);
    takeShape();
    refresh();
  } else if (cut(true)) {
    holdSection(canvas, event);
  } else {
    hold = { kind: 'paper', pointer: event.pointerId, last: touch, first: touch };
    canvas.style.cursor = 'move';
  }
}

function holdSection(canvas: HTMLCanvasElement, event: PointerEvent): void {
  hold = { kind: 'section', pointer: event.pointerId };
  canvas.style.cursor = 'grabbing';
  // A line pulled beyond the lot does not have the plan fitted anew.
  look(current.view);
}

function move(canvas: HTMLCanvasElement, event: PointerEvent): void {
  if (event.pointerType === 'pen') palms.pen(event, false);
  if (palms.rests(event)) {
    if (fingers.has(event.pointerId)) putDown();
    return;
  }
  const touch = at(canvas, event);
  if (fingers.has(event.pointerId)) fingers.set(event.pointerId, touch);
  if (pinch) return movePinch();
  if (hold.kind === 'nothing') {
    if (event.pointerType === 'touch') return;
    if (drawing.value) hoverDrawing(touch.x, touch.y);
    else hover(canvas, touch, REACH.mouse);
    return;
  }
  if (hold.pointer !== event.pointerId || hold.kind === 'pressed') return;
  if ('first' in hold && moved({ first: hold.first, last: touch })) stopPress();
  if (hold.kind === 'cross') {
    hold.last = touch;
    hold.slid ||= moved(hold);
    if (hold.slid) slideDrawing(touch.x, touch.y);
    return;
  }
  if (hold.kind === 'thing') {
    const [x, y] = siteAt(current.view, touch.x, touch.y);
    waiting = { x, y, snap: snapping.value !== event.altKey };
  } else if (hold.kind === 'section') {
    pullSection(...siteAt(current.view, touch.x, touch.y));
  } else {
    look(pulled(current.view, touch.x - hold.last.x, touch.y - hold.last.y));
    hold.last = touch;
  }
  askForFrame();
}

function up(canvas: HTMLCanvasElement, event: PointerEvent): void {
  if (palms.lifted(event)) return;
  stopPress();
  fingers.delete(event.pointerId);
  if (pinch) {
    // The finger that stays neither pulls nor moves anything until it is lifted too.
    if (fingers.size === 0) pinch = null;
    return;
  }
  if (hold.kind === 'nothing' || hold.pointer !== event.pointerId) return;
  const was = hold;
  hold = { kind: 'nothing' };
  canvas.style.cursor = '';
  if (was.kind === 'thing') {
    takeDrag();
    ask((p) => p.release(), undefined);
    held.value = null;
    takeShape();
    refresh();
  } else if (was.kind === 'pressed') {
    quiet = true;
  } else if (was.kind === 'section') {
    dropSection(true);
  } else if (was.kind === 'cross') {
    if (was.slid) place();
    else tapDrawing(was.first.x, was.first.y, true);
  } else if (!moved(was) && drawing.value) {
    if (event.button === 0) tapDrawing(was.first.x, was.first.y, false);
  } else if (!moved(was) && taping.value) {
    if (event.button === 0) tapTape(was.first, reachOf(event));
  } else if (moved(was)) {
    if (event.button === 2) pulledAt = event.timeStamp;
  } else if (event.button === 0) {
    const reach = reachOf(event);
    if (tapSide(was.last, reach)) return;
    hover(canvas, was.last, reach);
    openCard(was.last, reach);
  }
}

const moved = ({ first, last }: { first: Touch; last: Touch }): boolean =>
  Math.hypot(last.x - first.x, last.y - first.y) >= TAP;

/** In the yard, a tap on something opens its card. */
function openCard(touch: Touch, reach: number): void {
  if (step.value !== 'yard' || shaping.value) return;
  const { scale } = current.view;
  const [x, y] = siteAt(current.view, touch.x, touch.y);
  chosenFeature.value = ask((p) => p.feature_id_at(x, y, reach / scale), undefined) ?? null;
}

/** The system took the pointer away: nothing is left half done. */
function lost(canvas: HTMLCanvasElement, event: PointerEvent): void {
  if (palms.lifted(event)) return;
  stopPress();
  fingers.delete(event.pointerId);
  if (fingers.size === 0) pinch = null;
  if (hold.kind === 'nothing' || hold.pointer !== event.pointerId) return;
  canvas.style.cursor = '';
  if (!giveUp()) hold = { kind: 'nothing' };
}

function twoFingers(): { gap: number; middle: Touch } | null {
  const [a, b] = [...fingers.values()];
  if (!a || !b) return null;
  return { gap: Math.max(Math.hypot(b.x - a.x, b.y - a.y), 1), middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 } };
}

function startPinch(): void {
  stopPress();
  giveUp();
  hold = { kind: 'nothing' };
  pinch = twoFingers();
}

function movePinch(): void {
  const now = twoFingers();
  if (!now || !pinch) return;
  const shifted = pulled(current.view, now.middle.x - pinch.middle.x, now.middle.y - pinch.middle.y);
  look(zoomed(shifted, now.middle.x, now.middle.y, now.gap / pinch.gap));
  pinch = now;
  askForFrame();
}

function hover(canvas: HTMLCanvasElement, touch: Touch, reach: number): void {
  const { scale } = current.view;
  const [x, y] = siteAt(current.view, touch.x, touch.y);
  const under = planLocked.value ? undefined : ask((p) => p.hover(x, y, reach / scale, scale), undefined);
  // The ring comes and goes with the handle.
  if (over !== under && [over, under].includes('turn')) askForFrame();
  over = under;
  canvas.style.cursor = under ? 'grab' : '';
  const feature = under ? undefined : ask((p) => p.feature_at(x, y, reach / scale), undefined);
  tip.value = feature ? { text: feature, ...touch } : null;
}

function wheel(canvas: HTMLCanvasElement, event: WheelEvent): void {
  event.preventDefault();
  const { x, y } = at(canvas, event);
  // A wheel that counts lines or pages is brought to pixels; a pinch on a touchpad moves less.
  const pixels = event.deltaY * (event.deltaMode === 1 ? 16 : event.deltaMode === 2 ? 240 : 1);
  look(zoomed(current.view, x, y, Math.exp(-pixels * (event.ctrlKey ? 0.01 : 0.0015))));
  askForFrame();
}

/** The right button. What a long press of a finger and the menu key do is done elsewhere. */
function menu(canvas: HTMLCanvasElement, event: MouseEvent): void {
  event.preventDefault();
  const right = event.button === 2 || event.ctrlKey;
  if (!right || drawing.value || taping.value || event.timeStamp - pulledAt < RIGHT_AFTER) return;
  giveUp();
  hold = { kind: 'nothing' };
  openNumbersAt(at(canvas, event), REACH.mouse);
}

/** The pointer has left the plan: nothing is under it. */
function leave(): void {
  tip.value = null;
  if (over !== 'turn') return;
  over = undefined;
  ask((p) => p.hover(NaN, NaN, 0, 1), undefined);
  askForFrame();
}

/** Listens to the canvas; gives what stops it. */
export function listen(canvas: HTMLCanvasElement): () => void {
  const stop = new AbortController();
  const options = { signal: stop.signal };
  canvas.addEventListener('pointerdown', (event) => down(canvas, event), options);
  canvas.addEventListener('pointermove', (event) => move(canvas, event), options);
  canvas.addEventListener('pointerup', (event) => up(canvas, event), options);
  canvas.addEventListener(
    'touchend',
    (event) => {
      if (quiet) event.preventDefault();
      quiet = false;
    },
    options,
  );
  canvas.addEventListener('pointercancel', (event) => lost(canvas, event), options);
  canvas.addEventListener('pointerleave', leave, options);
  canvas.addEventListener('wheel', (event) => wheel(canvas, event), { ...options, passive: false });
  canvas.addEventListener('contextmenu', (event) => menu(canvas, event), options);
  return () => stop.abort();
}
