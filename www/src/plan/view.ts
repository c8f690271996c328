// Where the plan is looked at: a center in site meters, a scale in css pixels per meter, and the size of
// the canvas. Pure arithmetic apart from the one current view.

export interface View {
  /** Site position at the middle of the canvas, meters. */
  x: number;
  y: number;
  /** Css pixels per meter. */
  scale: number;
  /** Canvas size, css pixels. */
  width: number;
  height: number;
}

/** x0, y0, x1, y1 in site meters. */
export type Extent = ArrayLike<number>;

const LEAST_SCALE = 0.5;
const MOST_SCALE = 600;
/** Margin round the lot when it is fitted, css pixels: room for dimensions, scale bar and arrow. */
const MARGIN = 34;

const within = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

/** The site position under a css pixel of the canvas. */
export function siteAt(view: View, px: number, py: number): [number, number] {
  return [view.x + (px - view.width / 2) / view.scale, view.y - (py - view.height / 2) / view.scale];
}

/** The view after the paper was pulled by so many css pixels. */
export function pulled(view: View, dx: number, dy: number): View {
  return { ...view, x: view.x - dx / view.scale, y: view.y + dy / view.scale };
}

/** The view enlarged by `factor` while the site position under a css pixel stays under it. */
export function zoomed(view: View, px: number, py: number, factor: number): View {
  const scale = within(view.scale * factor, LEAST_SCALE, MOST_SCALE);
  const [x, y] = siteAt(view, px, py);
  const dx = px - view.width / 2;
  const dy = py - view.height / 2;
  return { ...view, scale, x: x - dx / scale, y: y + dy / scale };
}

/** The view that shows the whole extent. */
export function fitted(view: View, extent: Extent): View {
  const [x0 = 0, y0 = 0, x1 = 1, y1 = 1] = Array.from(extent);
  const margin = Math.min(MARGIN, view.width / 8, view.height / 8);
  const across = Math.max(view.width - 2 * margin, 1) / Math.max(x1 - x0, 1);
  const up = Math.max(view.height - 2 * margin, 1) / Math.max(y1 - y0, 1);
  const scale = within(Math.min(across, up), LEAST_SCALE, MOST_SCALE);
  return { ...view, scale, x: (x0 + x1) / 2, y: (y0 + y1) / 2 };
}

/** The current view. `loose` once the user has moved it: then a new size keeps the center. */
export const current: { view: View; loose: boolean } = {
  view: { x: 0, y: 0, scale: 10, width: 1, height: 1 },
  loose: false,
};

/** Shows the whole lot at the next painting. */
export function fitSoon(): void {
  current.loose = false;
}

/** Takes over a view that the user chose. */
export function look(view: View): void {
  current.view = view;
  current.loose = true;
}
