// What is drawn over the plan by a part of the page that comes and goes: it follows the view from frame to frame.
import { effect } from '@preact/signals';
import type { Point } from '../core/types.ts';
import { current, type View } from './view.ts';

export const SVG = 'http://www.w3.org/2000/svg';

/** Draws anew whenever the view, or a signal that `watched` reads, has changed; gives what ends it. */
export function followView(watched: () => unknown, draw: (view: View) => void): () => void {
  let stale = true;
  let view: View | null = null;
  const stopWatching = effect(() => {
    watched();
    stale = true;
  });
  let frame = requestAnimationFrame(function next() {
    frame = requestAnimationFrame(next);
    if (!stale && view === current.view) return;
    stale = false;
    view = current.view;
    draw(view);
  });
  return () => {
    cancelAnimationFrame(frame);
    stopWatching();
  };
}

/** A place of the site on the canvas, css pixels. */
export const onCanvas = ({ x, y, scale, width, height }: View, [east, north]: Point): Point => [
  width / 2 + (east - x) * scale,
  height / 2 - (north - y) * scale,
];

/** Places joined by straight lines, as the way of a path. */
export const wayThrough = (view: View, points: readonly Point[], closed = false): string =>
  points.map((p, at) => `${at === 0 ? 'M' : 'L'}${onCanvas(view, p).map((it) => it.toFixed(1)).join(' ')}`).join('') + (closed ? 'Z' : '');
