// The photographs pinned to the plan: a disc with the number of each, a wedge the way it looks, and, for the one in hand, a
// knob that turns it. They lie over the canvas and follow its view. A tap opens one; a hand or the arrow keys move it.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { Photograph, Point } from '../core/types.ts';
import { told } from '../fields/fields.tsx';
import { heldOff } from '../plan/lock.ts';
import { followView, onCanvas, SVG } from '../plan/overlay.ts';
import { current, siteAt, type View } from '../plan/view.ts';
import { say } from '../state/refresh.ts';
import { announce, drawing, sheet, site } from '../state/store.ts';
import { chosenPhotograph } from './door.ts';
import { look, move, photographs, turn } from './edits.ts';
import { spread } from './spread.ts';
import { alternative, looking } from './words.ts';
import './pins.css';
import { phrase } from '../words/words.ts';

/** How large a pin is, how far its wedge and its knob reach, css pixels; half of what the wedge opens by, radians. */
const PIN = 26;
const REACH = 42;
const KNOB = 58;
const HALF = Math.PI / 7.5;
/** A hand that moves no farther only taps. */
const STILL = 6;
/** What a key turns by, radians. */
const DEGREE = Math.PI / 180;

const ARROWS: Record<string, Point> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** What a hand has taken: where it was taken from, or which way it looks, as it is now. */
const inHand = signal<{ id: string; at?: Point; bearing?: number } | null>(null);

/** Whether pins are shown. */
export const pinsShown = signal(true);

/** Lays the pins over the plan; gives what takes them away. */
export function overPlan(): () => void {
  const over = document.querySelector('.plan-sheet');
  if (!over) return () => {};
  const drawn = document.createElementNS(SVG, 'svg');
  drawn.setAttribute('class', 'photo-over');
  drawn.setAttribute('aria-hidden', 'true');
  const box = document.createElement('div');
  box.className = 'photo-pins';
  over.querySelector('.plan-canvas')?.after(drawn, box);
  const pins = new Map<string, HTMLButtonElement>();
  const knob = knobOf();
  box.append(knob);
  const stop = followView(
    () => [site.value, drawing.value, inHand.value, chosenPhotograph.value, pinsShown.value],
    (view) => {
      const all = photographs();
      box.hidden = drawing.value !== null || !pinsShown.value;
      drawn.toggleAttribute('hidden', box.hidden);
      keepPins(box, pins, all);
      if (!box.hidden) lay(view, all, { drawn, pins, knob });
    },
  );
  return () => {
    stop();
    drawn.remove();
    box.remove();
    inHand.value = null;
  };
}

/** A button to each photograph, in their order. */
function keepPins(box: HTMLElement, pins: Map<string, HTMLButtonElement>, all: readonly Photograph[]): void {
  const ids = new Set(all.map((it) => it.id));
  for (const [id, pin] of pins) {
    if (ids.has(id)) continue;
    pin.remove();
    pins.delete(id);
  }
  all.forEach((it, index) => {
    const pin = pins.get(it.id) ?? pinOf(it.id);
    if (!pins.has(it.id)) {
      pins.set(it.id, pin);
      box.append(pin);
    }
    const number = String(index + 1);
    if (pin.textContent !== number) pin.textContent = number;
    pin.setAttribute('aria-label', alternative(it, index + 1, all.length));
  });
}

interface Parts {
  drawn: SVGSVGElement;
  pins: Map<string, HTMLButtonElement>;
  knob: HTMLButtonElement;
}

/** A photograph as it is now: under the hand, or in the site. */
function now(it: Photograph): Photograph {
  const hand = inHand.value?.id === it.id ? inHand.value : undefined;
  return { ...it, ...(hand?.at && { at: hand.at }), ...(hand?.bearing !== undefined && { bearing: hand.bearing }) };
}

const ahead = ([x, y]: Point, bearing: number, reach: number): Point => [x + reach * Math.sin(bearing), y - reach * Math.cos(bearing)];

function lay(view: View, all: readonly Photograph[], { drawn, pins, knob }: Parts): void {
  drawn.setAttribute('viewBox', `0 0 ${view.width} ${view.height}`);
  const shown = all.map(now);
  const places = shown.map((it) => onCanvas(view, it.at));
  const stand = spread(places, PIN);
  const parts: SVGElement[] = [];
  const path = (look: string, way: string): void => {
    const it = document.createElementNS(SVG, 'path');
    it.setAttribute('class', look);
    it.setAttribute('d', way);
    parts.push(it);
  };
  const told = ([x, y]: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
  knob.hidden = true;
  shown.forEach((it, index) => {
    const place = places[index] ?? [0, 0];
    const at = stand[index] ?? place;
    const chosen = it.id === chosenPhotograph.value;
    if (it.bearing !== undefined) {
      const [left, right] = [ahead(place, it.bearing - HALF, REACH), ahead(place, it.bearing + HALF, REACH)];
      path(chosen ? 'photo-wedge photo-chosen' : 'photo-wedge', `M${told(place)}L${told(left)}A${REACH} ${REACH} 0 0 1 ${told(right)}Z`);
    }
    if (at !== place && Math.hypot(at[0] - place[0], at[1] - place[1]) > 1) path('photo-leader', `M${told(place)}L${told(at)}`);
    const pin = pins.get(it.id);
    if (!pin) return;
    pin.style.left = `${at[0]}px`;
    pin.style.top = `${at[1]}px`;
    pin.toggleAttribute('data-chosen', chosen);
    if (!chosen) return;
    const [x, y] = ahead(place, it.bearing ?? 0, KNOB);
    knob.hidden = false;
    knob.style.left = `${x}px`;
    knob.style.top = `${y}px`;
    if (it.bearing === undefined) path('photo-leader photo-asked', `M${told(place)}L${told([x, y])}`);
  });
  drawn.replaceChildren(...parts);
}

function pinOf(id: string): HTMLButtonElement {
  const it = document.createElement('button');
  it.type = 'button';
  it.className = 'photo-pin';
  it.addEventListener('focus', () => void (chosenPhotograph.value = id));
  it.addEventListener('click', (event) => {
    // A hand opens it where it lets go; this is a key, or whoever listens.
    if (event.detail === 0) open(id);
  });
  it.addEventListener('keydown', (event) => key(id, event));
  it.addEventListener('pointerdown', (event) => drag(it, id, event));
  return it;
}

function open(id: string): void {
  look(id);
  sheet.value = 'photographs';
}

const found = (id: string): Photograph | undefined => photographs().find((it) => it.id === id);

/** Follows a hand until it lets go. `moved` hears where it is on the site, `let_go` whether it moved at all. */
function followHand(it: HTMLElement, event: PointerEvent, moved: (at: Point) => void, ended: (moved: boolean) => void): void {
  const box = it.closest('.plan-sheet')?.getBoundingClientRect();
  if (!box) return;
  it.setPointerCapture(event.pointerId);
  const [fromX, fromY] = [event.clientX, event.clientY];
  let far = false;
  const stop = new AbortController();
  const { signal } = stop;
  it.addEventListener(
    'pointermove',
    (to) => {
      far ||= Math.hypot(to.clientX - fromX, to.clientY - fromY) > STILL;
      if (far) moved(siteAt(current.view, to.clientX - box.left, to.clientY - box.top));
    },
    { signal },
  );
  const end = (taken: boolean) => () => {
    stop.abort();
    if (taken) ended(far);
    inHand.value = null;
  };
  it.addEventListener('pointerup', end(true), { signal });
  it.addEventListener('pointercancel', end(false), { signal });
}

function drag(it: HTMLButtonElement, id: string, event: PointerEvent): void {
  if (event.button !== 0) return;
  const start = found(id);
  if (!start) return;
  chosenPhotograph.value = id;
  const box = it.closest('.plan-sheet')?.getBoundingClientRect();
  const [fromX, fromY] = siteAt(current.view, event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0));
  let off = false;
  followHand(
    it,
    event,
    ([x, y]) => {
      // A plan that is locked says so once.
      if (off || (!inHand.value && heldOff())) return void (off = true);
      inHand.value = { id, at: [start.at[0] + x - fromX, start.at[1] + y - fromY] };
    },
    (moved) => {
      const at = inHand.value?.at;
      if (at) refusedOr(told(move(id, at)));
      else if (!moved) open(id);
    },
  );
}

/** The knob that turns the photograph in hand. */
function knobOf(): HTMLButtonElement {
  const it = document.createElement('button');
  it.type = 'button';
  it.className = 'photo-knob';
  it.setAttribute('aria-label', phrase('Turn the photograph: drag it toward what it shows, or press the arrow keys'));
  it.addEventListener('pointerdown', (event) => {
    const start = found(chosenPhotograph.value ?? '');
    if (event.button !== 0 || !start || heldOff()) return;
    followHand(
      it,
      event,
      ([x, y]) => {
        inHand.value = { id: start.id, bearing: Math.atan2(x - start.at[0], y - start.at[1]) };
      },
      () => {
        const bearing = inHand.value?.bearing;
        if (bearing !== undefined) turned(start.id, bearing);
      },
    );
  });
  it.addEventListener('keydown', (event) => {
    const [east] = ARROWS[event.key] ?? [0];
    const start = found(chosenPhotograph.value ?? '');
    if (east === 0 || !start || heldOff()) return;
    event.preventDefault();
    event.stopPropagation();
    turned(start.id, (start.bearing ?? 0) + east * DEGREE * (event.shiftKey ? 1 : 5));
  });
  return it;
}

function turned(id: string, bearing: number): void {
  refusedOr(told(turn(id, bearing)));
  announce.value = looking(found(id)?.bearing);
}

function refusedOr(refused: string | undefined): void {
  if (refused) say(refused, 'bad');
}

function key(id: string, event: KeyboardEvent): void {
  const start = found(id);
  if (!start || event.ctrlKey || event.metaKey || event.altKey) return;
  const [east, north] = ARROWS[event.key] ?? [0, 0];
  const turns = { '[': -1, ']': 1, '{': -1, '}': 1 }[event.key] ?? 0;
  if (east === 0 && north === 0 && turns === 0) return;
  event.preventDefault();
  event.stopPropagation();
  if (heldOff()) return;
  if (turns !== 0) return turned(id, (start.bearing ?? 0) + turns * DEGREE * (event.shiftKey ? 1 : 5));
  const step = ask((p) => p.key_step(event.shiftKey), 0);
  refusedOr(told(move(id, [start.at[0] + east * step, start.at[1] + north * step])));
  announce.value = phrase('The photograph was moved.');
}
