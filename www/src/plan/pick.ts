// Points and paths picked on the plan. Any panel may ask: `pickPoint`, `pickPath`. While one is asked for, a bar
// on the plan shows what is wanted (see DrawBar.tsx), and fingers, mouse and keys place points. The core holds
// the drawing, leads the hand and works out every figure; nothing is in the document until somebody makes an
// edit of what comes back.
import { ask } from '../core/planner.ts';
import type { DrawAction, DrawMode, DrawStep, Drawn, Point, TypedAngle, Vertex, Wanted } from '../core/types.ts';
import { announce, drawing, snapping } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { askForFrame } from './frame.ts';
import { current, siteAt } from './view.ts';

export interface Path {
  prompt: string;
  closed: boolean;
  /** What is placed already. */
  start?: Vertex[];
}

/** How near the hand must come to what it is led to, css pixels. */
export const LED_WITHIN = { mouse: 12, finger: 22, keys: 12, typed: 0 };
export type Hand = keyof typeof LED_WITHIN;

let finish: ((path: Vertex[] | null) => void) | null = null;

const NOTHING: DrawStep = { drawn: null, findings: [], done: null };

/** One point, snapped or typed; nothing when the user gives up. */
export async function pickPoint(prompt: string): Promise<Point | null> {
  const path = await begin(prompt, 'point', []);
  const at = path?.[0];
  return at ? [at[0], at[1]] : null;
}

/** A path of straight edges and arcs; nothing when the user gives up. */
export function pickPath({ prompt, closed, start = [] }: Path): Promise<Vertex[] | null> {
  return begin(prompt, closed ? 'closed' : 'open', start);
}

/** From one place to another: where it begins, its length in meters and its bearing in radians. */
export interface Stretch {
  at: Point;
  length: number;
  bearing: number;
}

/** Two points; with `round` a middle and a point on its circle. */
export async function pickStretch(prompt: string, round = false): Promise<Stretch | null> {
  const path = await begin(prompt, round ? 'disc' : 'stretch', []);
  const at = path?.[0];
  return at && lastRun ? { at: [at[0], at[1]], length: lastRun[0], bearing: lastRun[1] } : null;
}

/** What the newest stretch measured, as the core said just before it was placed. */
let lastRun: Drawn['run'] = null;

function begin(prompt: string, wanted: Wanted, start: Vertex[]): Promise<Vertex[] | null> {
  giveUpDrawing();
  ask((p) => p.draw(wanted, start), undefined);
  const picked = new Promise<Vertex[] | null>((done) => {
    finish = done;
  });
  const { width, height } = current.view;
  drawing.value = { prompt, wanted, drawn: null, word: '', hand: siteAt(current.view, width / 2, height / 2) };
  follow(drawing.value.hand, 'keys');
  document.querySelector<HTMLElement>('.plan-canvas')?.focus({ preventScroll: true });
  return picked;
}

function end(path: Vertex[] | null): void {
  const done = finish;
  finish = null;
  drawing.value = null;
  ask((p) => p.draw_do('end'), NOTHING);
  askForFrame();
  done?.(path);
}

/** Shows a path on the plan that is in no document, or takes it away. */
export function showPath(path: Vertex[], closed: boolean): void {
  ask((p) => p.show_path(closed, path), undefined);
  askForFrame();
}

/** Takes over what the core says of the drawing. */
function take(step: DrawStep): void {
  const now = drawing.value;
  if (!now) return;
  lastRun = now.drawn?.run ?? null;
  if (step.done) return end(step.done);
  // A core that had to restart has lost the drawing.
  if (!step.drawn) return end(null);
  const word = step.findings.map(({ message, remedy }) => `${message} ${remedy}`.trim()).join(' ');
  drawing.value = { ...now, drawn: step.drawn, word };
  if (word) announce.value = word;
  askForFrame();
}

/** The hand is at a place of the site. */
export function follow(at: Point, hand: Hand): void {
  const now = drawing.value;
  if (!now) return;
  now.hand = at;
  const reach = snapping.value ? LED_WITHIN[hand] / current.view.scale : 0;
  take(ask((p) => p.draw_at(at[0], at[1], reach), NOTHING));
}

/** Moves the hand from where it is. */
export function shift(east: number, north: number): void {
  const now = drawing.value;
  if (now) follow([now.hand[0] + east, now.hand[1] + north], 'keys');
}

/** Typed figures in place of the hand's, SI. */
export function type(length: number | undefined, angle: TypedAngle | undefined): void {
  take(ask((p) => p.draw_typed(length, angle), NOTHING));
}

function act(what: DrawAction): void {
  if (drawing.value) take(ask((p) => p.draw_do(what), NOTHING));
}

export const back = (): void => act('back');
export const drawAs = (mode: DrawMode): void => act(mode);
export const finishDrawing = (): void => act('finish');

/** Places the point where the hand is led. */
export function place(): void {
  const before = drawing.value?.drawn;
  act('place');
  const now = drawing.value?.drawn;
  if (!before || !now || now.points.length === before.points.length) return;
  announce.value = spoken(before);
  if (drawing.value && before.at) drawing.value.hand = before.at;
}

/** Gives the drawing up; says whether there was one. */
export function giveUpDrawing(): boolean {
  if (!drawing.value) return false;
  end(null);
  return true;
}

function spoken(placed: Drawn): string {
  const run = placed.length ? `${placed.length}, ${placed.bearing ?? ''}` : phrase('First point');
  return placed.reason ? `${run}: ${placed.reason}` : run;
}
