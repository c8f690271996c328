// The way in and the lift drawn over the plan, and the spots that a hand takes there. It lies over the canvas, follows its
// view from frame to frame, and is there only while its part is open.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { Point } from '../core/types.ts';
import { heldOff } from '../plan/lock.ts';
import { followView, onCanvas, SVG, wayThrough } from '../plan/overlay.ts';
import { current, siteAt, type View } from '../plan/view.ts';
import { announce, drawing, site } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { access } from './access.ts';
import { NAMES, put, SPOTS, spotAt, type Spot } from './spots.ts';

/** A stretch of a fence that is looked at in the list. */
export const marked = signal<[Point, Point] | null>(null);

/** A spot under a hand, where it is now. */
const dragged = signal<{ spot: Spot; at: Point } | null>(null);

const LETTERS: Record<Spot, string> = { crane: 'C', delivery: 'T', set_down: 'S' };

const ARROWS: Record<string, Point> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** Lays it over the plan; gives what takes it away. */
export function overPlan(): () => void {
  const sheet = document.querySelector('.plan-sheet');
  if (!sheet) return () => {};
  const drawn = document.createElementNS(SVG, 'svg');
  drawn.setAttribute('class', 'way-over');
  drawn.setAttribute('aria-hidden', 'true');
  const spots = document.createElement('div');
  spots.className = 'way-spots';
  sheet.querySelector('.plan-canvas')?.after(drawn, spots);
  const handles = new Map(SPOTS.map((spot) => [spot, handle(spot)]));
  spots.append(...handles.values());
  const stop = followView(
    () => [access.value, marked.value, dragged.value, site.value, drawing.value],
    (view) => {
      draw(drawn, view);
      for (const [spot, it] of handles) place(it, spot, view);
    },
  );
  return () => {
    stop();
    drawn.remove();
    spots.remove();
    marked.value = dragged.value = null;
  };
}

/** Where a spot is: under the hand, or in the site. */
const now = (spot: Spot): Point | undefined =>
  dragged.value?.spot === spot ? dragged.value.at : spotAt(site.value?.lift ?? {}, spot);

function draw(svg: SVGSVGElement, view: View): void {
  svg.setAttribute('viewBox', `0 0 ${view.width} ${view.height}`);
  const figures = access.value?.figures;
  const parts: SVGElement[] = [];
  const d = (points: readonly Point[], closed = false): string => wayThrough(view, points, closed);
  const path = (look: string, way: string): void => {
    const it = document.createElementNS(SVG, 'path');
    it.setAttribute('class', look);
    it.setAttribute('d', way);
    parts.push(it);
  };
  const label = (text: string, at: Point, look: string): void => {
    const it = document.createElementNS(SVG, 'text');
    const [x, y] = onCanvas(view, at);
    it.setAttribute('class', look);
    it.setAttribute('x', x.toFixed(1));
    it.setAttribute('y', (y - 10).toFixed(1));
    it.textContent = text;
    parts.push(it);
  };
  if (figures) {
    const { crane } = figures;
    if (crane.band.length > 0) path('lift-band', crane.band.map((ring) => d(ring, true)).join(''));
    for (const way of [figures.to_dig, figures.to_set_down]) {
      if (!way) continue;
      if (way.line.length > 1) {
        path('way-line way-under', d(way.line));
        path('way-line', d(way.line));
      }
      if (!way.pinch) continue;
      path('way-pinch way-under', d(way.pinch));
      path('way-pinch', d(way.pinch));
      const [[ax, ay], [bx, by]] = way.pinch;
      label(way.closed ? phrase('closed') : (way.width?.shown.text ?? ''), [(ax + bx) / 2, (ay + by) / 2], 'way-label');
    }
    if (crane.pads.length > 0) {
      const [x, y] = crane.at ?? [0, 0];
      const [toX, toY] = now('crane') ?? [x, y];
      // Under a hand the outriggers go along; figures follow when it lets go.
      const shifted = (ring: readonly Point[]): Point[] => ring.map(([px, py]) => [px + toX - x, py + toY - y]);
      path('lift-crane', d(shifted(crane.outriggers), true));
      path('lift-pads', crane.pads.map((ring) => d(shifted(ring), true)).join(''));
    }
    if (crane.load_line) path('lift-load', d(crane.load_line));
  }
  const crane = now('crane');
  const shell = site.value?.placement?.at;
  if (crane && shell) path('lift-radius', d([crane, shell]));
  const truck = now('delivery');
  if (crane && truck) path('lift-radius', d([crane, truck]));
  if (marked.value) path('way-out', d(marked.value));
  svg.replaceChildren(...parts);
}

function place(it: HTMLButtonElement, spot: Spot, view: View): void {
  const at = now(spot);
  it.hidden = at === undefined || drawing.value !== null;
  if (!at) return;
  const [x, y] = onCanvas(view, at);
  it.style.left = `${x}px`;
  it.style.top = `${y}px`;
}

/** A spot that is dragged, or moved by the arrow keys. */
function handle(spot: Spot): HTMLButtonElement {
  const it = document.createElement('button');
  it.type = 'button';
  it.className = 'lift-spot';
  it.dataset['spot'] = spot;
  it.textContent = LETTERS[spot];
  it.title = phrase(NAMES[spot]);
  it.setAttribute('aria-label', phrase('{spot}: drag it, or move it with the arrow keys', { spot: phrase(NAMES[spot]) }));
  it.addEventListener('pointerdown', (event) => drag(it, spot, event));
  it.addEventListener('keydown', (event) => key(spot, event));
  return it;
}

function drag(it: HTMLButtonElement, spot: Spot, event: PointerEvent): void {
  const start = now(spot);
  const box = it.closest('.plan-sheet')?.getBoundingClientRect();
  if (event.button !== 0 || !start || !box || heldOff()) return;
  it.setPointerCapture(event.pointerId);
  const under = (of: PointerEvent): Point => siteAt(current.view, of.clientX - box.left, of.clientY - box.top);
  const [fromX, fromY] = under(event);
  const stop = new AbortController();
  const { signal } = stop;
  it.addEventListener(
    'pointermove',
    (to) => {
      const [x, y] = under(to);
      dragged.value = { spot, at: [start[0] + x - fromX, start[1] + y - fromY] };
    },
    { signal },
  );
  it.addEventListener(
    'pointerup',
    () => {
      stop.abort();
      const at = dragged.value?.at;
      dragged.value = null;
      if (at) put.at(spot, at);
    },
    { signal },
  );
  it.addEventListener(
    'pointercancel',
    () => {
      stop.abort();
      dragged.value = null;
    },
    { signal },
  );
}

function key(spot: Spot, event: KeyboardEvent): void {
  const [east, north] = ARROWS[event.key] ?? [0, 0];
  const at = now(spot);
  if ((east === 0 && north === 0) || !at || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  event.stopPropagation();
  if (heldOff()) return;
  const step = ask((p) => p.key_step(event.shiftKey), 0);
  put.at(spot, [at[0] + east * step, at[1] + north * step]);
  announce.value = phrase('{spot} moved', { spot: phrase(NAMES[spot]) });
}
