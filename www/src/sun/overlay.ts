// The shade at the time looked at, drawn over the plan: it follows the view from frame to frame, takes no hand, and is there
// only while its part is open.
import type { Point } from '../core/types.ts';
import { followView, SVG, wayThrough } from '../plan/overlay.ts';
import type { View } from '../plan/view.ts';
import { shade } from './asked.ts';

/** Between the lines of the hatch, css pixels: shade is told by its lines, not by its tone alone. */
const HATCH = 7;

function made(name: string, attributes: Record<string, string>, ...inside: SVGElement[]): SVGElement {
  const it = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) it.setAttribute(key, value);
  it.append(...inside);
  return it;
}

/** Lays it over the plan; gives what takes it away. */
export function overPlan(): () => void {
  const canvas = document.querySelector('.plan-sheet .plan-canvas');
  if (!canvas) return () => {};
  const size = String(HATCH);
  const line = made('path', { d: `M-1 1L1 -1M0 ${HATCH}L${HATCH} 0M${HATCH - 1} ${HATCH + 1}L${HATCH + 1} ${HATCH - 1}` });
  const hatch = made('pattern', { id: 'sun-hatch', width: size, height: size, patternUnits: 'userSpaceOnUse' }, line);
  const drawn = made('svg', { class: 'sun-over', 'aria-hidden': 'true' });
  const cast = made('path', { class: 'sun-shade' });
  const lines = made('path', { class: 'sun-shade-lines', fill: 'url(#sun-hatch)' });
  const onWater = made('path', { class: 'sun-on-water' });
  drawn.append(made('defs', {}, hatch), cast, lines, onWater);
  canvas.after(drawn);
  const stop = followView(
    () => shade.value,
    (view) => {
      drawn.setAttribute('viewBox', `0 0 ${view.width} ${view.height}`);
      const now = shade.value;
      const whole = outline(view, now?.shades.flatMap(({ rings }) => rings) ?? []);
      cast.setAttribute('d', whole);
      lines.setAttribute('d', whole);
      onWater.setAttribute('d', outline(view, now?.on_water ?? []));
      drawn.dataset['shades'] = String(now?.shades.length ?? 0);
    },
  );
  return () => {
    stop();
    drawn.remove();
  };
}

const outline = (view: View, rings: readonly (readonly Point[])[]): string =>
  rings.map((ring) => wayThrough(view, ring, true)).join('');
