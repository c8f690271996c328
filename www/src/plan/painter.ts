// Paints the plan: takes the drag that waits, gives the core the canvas, and keeps the document once it has been
// painted without trouble. Under a hand the plan is painted in every frame; the ledger, which is read and not felt, has
// a frame of its own some times a second, and one as soon as the hand pauses.
import { ask } from '../core/planner.ts';
import { keep, takeOver } from '../state/actions.ts';
import { followSection, paintSection } from '../state/section.ts';
import { clearGroundShown } from '../state/arrangement.ts';
import { gesturing, highlight, ledger } from '../state/store.ts';
import { tellControls } from './controls.ts';
import { askForFrame, eachFrame } from './frame.ts';
import { dragWaits, takeDrag } from './gesture.ts';
import { current } from './view.ts';

/** While the hand moves the ledger follows this often, milliseconds: nobody reads figures faster (arbitrary). */
const LEDGER_EVERY = 100;

let painted = -1;
/** The plan has moved on since the ledger was told, and when that was. */
let behind = false;
let told = 0;
let below: { canvas: HTMLCanvasElement; context: CanvasRenderingContext2D } | null = null;

/** Sets the canvas of the section to be painted from now on, after the plan; gives what undoes that. */
export function sectionOn(canvas: HTMLCanvasElement): () => void {
  const context = canvas.getContext('2d', { alpha: false });
  if (context) below = { canvas, context };
  askForFrame();
  return () => {
    below = null;
  };
}

/** Sets the canvas to be painted from now on; gives what undoes that. */
export function paintOn(canvas: HTMLCanvasElement): () => void {
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) return () => {};
  eachFrame(() => frame(canvas, context));
  return () => eachFrame(() => {});
}

function frame(canvas: HTMLCanvasElement, context: CanvasRenderingContext2D): void {
  if (behind && (!dragWaits() || performance.now() - told >= LEDGER_EVERY)) {
    behind = false;
    told = performance.now();
    takeOver();
    askForFrame();
    return;
  }
  if (takeDrag()) {
    behind = true;
    askForFrame();
  }
  followSection();
  const ratio = window.devicePixelRatio || 1;
  const { width, height } = current.view;
  const across = Math.round(width * ratio);
  const down = Math.round(height * ratio);
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
  tellControls();
  // Under a hand at work the plan stays where it is.
  if (!current.loose && !gesturing.value) {
    const fit = ask((p) => p.fitted(width, height), undefined);
    if (fit) {
      const [x = 0, y = 0, scale = 1] = fit;
      current.view = { ...current.view, x, y, scale };
    }
  }
  const done = ask((p) => {
    p.show_clear_ground(clearGroundShown.value);
    p.paint(context, { ...current.view, ratio }, highlight.value);
    return true;
  }, false);
  if (below) paintSection(below.canvas, below.context);
  const revision = ledger.value?.revision ?? -1;
  if (done && !gesturing.value && revision !== painted) {
    painted = revision;
    keep();
  }
}
