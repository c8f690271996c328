// The bar over the plan while a shape is changed: whose it is, what is picked of it, and what can be done.
import type { Shaped } from '../door/shapes.ts';
import { Figure } from '../fields/fields.tsx';
import { drawing, shaping } from '../state/store.ts';
import { SnapToggle } from './DrawBar.tsx';
import { endShape, shapeDo } from './shape.ts';

const HINTS: Record<Shaped['form'], string> = {
  closed: 'Drag corners, edges, or the round handle on an edge to add a corner.',
  open: 'Drag corners, edges, or the round handle on an edge to add a corner.',
  spots: 'Drag spots.',
  disc: 'Drag the middle, or the handle on the rim.',
  none: 'Its shape is set by figures in its card.',
};

export function ShapeBar() {
  const now = shaping.value;
  if (!now || drawing.value) return null;
  const { shaped } = now;
  const { picked, form, run } = shaped;
  const path = form === 'closed' || form === 'open';
  const edge = picked === 'edge' || picked === 'arc';
  return (
    <section class="draw-bar" aria-label="Changing a shape">
      <header class="draw-head">
        <h2>Changing {shaped.name}</h2>
        <p class="draw-wants">{picked ? shaped.says : HINTS[form]}</p>
      </header>
      {shaped.word && (
        <p class="draw-word" role="alert">
          {shaped.word}
        </p>
      )}
      {run && picked === 'edge' && (
        <div class="draw-typing">
          <Figure
            label="Its length"
            measure="length"
            value={run[0]}
            commit={(length) => shapeDo('run', length, run[1]).findings}
          />
          <Figure
            label="Its bearing"
            measure="bearing"
            value={run[1]}
            commit={(bearing) => shapeDo('run', run[0], bearing).findings}
          />
        </div>
      )}
      {!shaped.locked && (
        <div class="draw-buttons">
          {(path || form === 'spots') && (
            <>
              <button type="button" aria-label="Pick the one before" onClick={() => shapeDo('before')}>
                ‹
              </button>
              <button type="button" aria-label="Pick the next one" onClick={() => shapeDo('next')}>
                ›
              </button>
            </>
          )}
          {path && picked && (
            <button type="button" onClick={() => shapeDo('add')}>
              Add a corner
            </button>
          )}
          {picked === 'corner' && (
            <button type="button" onClick={() => shapeDo('remove')}>
              {form === 'spots' ? 'Take it out' : 'Take the corner out'}
            </button>
          )}
          {path && edge && (
            <button type="button" onClick={() => shapeDo('bend')}>
              {picked === 'arc' ? 'Make it straight' : 'Bend it'}
            </button>
          )}
          {path && (
            <button type="button" onClick={() => shapeDo('square')}>
              Square up
            </button>
          )}
          <SnapToggle />
          <button type="button" class="main" onClick={endShape}>
            Done
          </button>
        </div>
      )}
      {shaped.locked && (
        <div class="draw-buttons">
          <button type="button" class="main" onClick={endShape}>
            Done
          </button>
        </div>
      )}
    </section>
  );
}
