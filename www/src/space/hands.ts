// What hands and keys do in the round: a drag turns, two fingers or the right button shift and pinch, the wheel and plus and
// minus bring nearer, arrows turn or walk.
import { nearer, shifted, turned, walked, type Look } from './camera.ts';
import type { SpaceView } from './view.ts';

/** Of a turn for each pixel of a drag, radians. */
const TURN = 0.0075;
/** By one press of a key: radians, meters, times. */
const KEY_TURN = 0.12;
const KEY_STEP = 0.6;
const KEY_NEAR = 0.86;

/** Makes a canvas something that hands and keys are at, told by what it is described in. */
export function forHands(canvas: HTMLCanvasElement, describedBy: string): void {
  canvas.className = 'space-canvas';
  canvas.tabIndex = 0;
  canvas.setAttribute('role', 'application');
  canvas.setAttribute('aria-roledescription', 'view in three dimensions');
  canvas.setAttribute('aria-describedby', describedBy);
}

export function handsOn(canvas: HTMLCanvasElement, view: SpaceView, reach: number): () => void {
  const held = new Map<number, { x: number; y: number; shifts: boolean }>();
  const down = (event: PointerEvent): void => {
    canvas.setPointerCapture(event.pointerId);
    held.set(event.pointerId, { x: event.clientX, y: event.clientY, shifts: event.button === 2 || event.shiftKey });
  };
  const move = (event: PointerEvent): void => {
    const was = held.get(event.pointerId);
    if (!was) return;
    const [dx, dy] = [event.clientX - was.x, event.clientY - was.y];
    const others = [...held].filter(([id]) => id !== event.pointerId).map(([, it]) => it);
    held.set(event.pointerId, { ...was, x: event.clientX, y: event.clientY });
    const other = others[0];
    let look: Look = view.look;
    if (other) {
      const far = (x: number, y: number): number => Math.hypot(x - other.x, y - other.y) || 1;
      const meters = view.metersToPixel() / 2;
      look = nearer(look, far(was.x, was.y) / far(event.clientX, event.clientY));
      look = shifted(look, -dx * meters, dy * meters, reach);
    } else if (was.shifts && look.kind === 'orbit') {
      const meters = view.metersToPixel();
      look = shifted(look, -dx * meters, dy * meters, reach);
    } else look = look.kind === 'orbit' ? turned(look, -dx * TURN, dy * TURN) : turned(look, dx * TURN * 0.6, dy * TURN * 0.6);
    view.setLook(look, true);
  };
  const up = (event: PointerEvent): void => {
    held.delete(event.pointerId);
  };
  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    view.setLook(nearer(view.look, Math.exp(Math.max(-60, Math.min(60, event.deltaY)) * 0.004)), true);
  };
  const menu = (event: Event): void => event.preventDefault();
  const key = (event: KeyboardEvent): void => {
    const look = keyed(view, event.key, event.shiftKey, reach);
    if (!look) return;
    event.preventDefault();
    view.setLook(look, true);
  };
  canvas.addEventListener('pointerdown', down);
  canvas.addEventListener('pointermove', move);
  canvas.addEventListener('pointerup', up);
  canvas.addEventListener('pointercancel', up);
  canvas.addEventListener('wheel', wheel, { passive: false });
  canvas.addEventListener('contextmenu', menu);
  canvas.addEventListener('keydown', key);
  return () => {
    canvas.removeEventListener('pointerdown', down);
    canvas.removeEventListener('pointermove', move);
    canvas.removeEventListener('pointerup', up);
    canvas.removeEventListener('pointercancel', up);
    canvas.removeEventListener('wheel', wheel);
    canvas.removeEventListener('contextmenu', menu);
    canvas.removeEventListener('keydown', key);
  };
}

/** A step ahead or back, or a turn, where one walks. */
export function stepped(view: SpaceView, meters: number, aside: number): Look {
  const { look } = view;
  if (look.kind !== 'walk') return look;
  const turnedLook = turned(look, aside, 0);
  return meters === 0 ? turnedLook : walked(turnedLook, meters, view.ground);
}

function keyed(view: SpaceView, key: string, shift: boolean, reach: number): Look | undefined {
  const { look } = view;
  const step = 24 * view.metersToPixel();
  switch (key) {
    case 'ArrowLeft':
      if (look.kind === 'walk') return stepped(view, 0, KEY_TURN);
      return shift ? shifted(look, -step, 0, reach) : turned(look, -KEY_TURN, 0);
    case 'ArrowRight':
      if (look.kind === 'walk') return stepped(view, 0, -KEY_TURN);
      return shift ? shifted(look, step, 0, reach) : turned(look, KEY_TURN, 0);
    case 'ArrowUp':
      if (look.kind === 'walk') return shift ? turned(look, 0, KEY_TURN) : stepped(view, KEY_STEP, 0);
      return shift ? shifted(look, 0, step, reach) : turned(look, 0, KEY_TURN);
    case 'ArrowDown':
      if (look.kind === 'walk') return shift ? turned(look, 0, -KEY_TURN) : stepped(view, -KEY_STEP, 0);
      return shift ? shifted(look, 0, -step, reach) : turned(look, 0, -KEY_TURN);
    case '+':
    case '=':
      return nearer(look, KEY_NEAR);
    case '-':
      return nearer(look, 1 / KEY_NEAR);
    default:
      return undefined;
  }
}
