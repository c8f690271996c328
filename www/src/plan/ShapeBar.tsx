// The bar over the plan while a shape is changed: whose it is, what is picked of it, and what can be done. It
// keeps its height whatever is picked, so that the plan does not move under the hand.
import type { Shaped } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { drawing, shaping } from '../state/store.ts';
import { english, heard, phrase, type English } from '../words/words.ts';
import { SnapToggle } from './DrawBar.tsx';
import { endShape, shapeDo } from './shape.ts';

const HINTS: Record<Shaped['form'], English> = {
  closed: english('Drag corners and edges; a round handle adds a corner.'),
  open: english('Drag corners and edges; a round handle adds a corner.'),
  spots: english('Drag spots.'),
  disc: english('Drag the middle, or the handle on the rim.'),
  none: english('Its shape is set by figures in its card.'),
};

export function ShapeBar() {
  const now = shaping.value;
  if (!now || drawing.value) return null;
  const { shaped } = now;
  const { picked, form, run } = shaped;
  const path = form === 'closed' || form === 'open';
  return (
    <section class="draw-bar" aria-label={phrase('Changing a shape')}>
      <header class="draw-head">
        <h2>{phrase('Changing {thing}', { thing: heard(shaped.name) })}</h2>
        {picked && <p class="draw-wants">{heard(shaped.says)}</p>}
      </header>
      <p class="draw-figures">
        {shaped.word ? (
          <span class="draw-word" role="alert">
            {heard(shaped.word)}
          </span>
        ) : (
          <span class="draw-wants">{phrase(HINTS[form])}</span>
        )}
      </p>
      {path && !shaped.locked && <Run run={picked === 'edge' ? run : null} />}
      <div class="draw-buttons">
        {!shaped.locked && (
          <>
            {(path || form === 'spots') && <Picking />}
            {path && <Deeds picked={picked} />}
            {form === 'spots' && (
              <button type="button" disabled={!picked} onClick={() => shapeDo('remove')}>
                {phrase('Remove')}
              </button>
            )}
            {!path && <SnapToggle />}
          </>
        )}
        <button type="button" class="main" onClick={endShape}>
          {phrase('Done')}
        </button>
      </div>
    </section>
  );
}

/** Length and bearing of the picked edge. */
function Run({ run }: { run: [number, number] | null }) {
  return (
    <div class="draw-typing">
      <Figure
        label={phrase('Its length')}
        measure="length"
        value={run?.[0]}
        placeholder={phrase('of a picked edge')}
        disabled={!run}
        commit={(length) => shapeDo({ run: { length, bearing: run?.[1] ?? 0 } }).findings}
      />
      <Figure
        label={phrase('Its bearing')}
        measure="bearing"
        value={run?.[1]}
        disabled={!run}
        commit={(bearing) => shapeDo({ run: { length: run?.[0] ?? 0, bearing } }).findings}
      />
      <SnapToggle />
    </div>
  );
}

function Picking() {
  return (
    <>
      <button type="button" aria-label={phrase('Pick the one before')} onClick={() => shapeDo('before')}>
        ‹
      </button>
      <button type="button" aria-label={phrase('Pick the next one')} onClick={() => shapeDo('next')}>
        ›
      </button>
    </>
  );
}

function Deeds({ picked }: { picked: Shaped['picked'] }) {
  return (
    <>
      <button type="button" aria-label={phrase('Add a corner')} disabled={!picked} onClick={() => shapeDo('add')}>
        {phrase('Add')}
      </button>
      <button
        type="button"
        aria-label={phrase('Remove the corner')}
        disabled={picked !== 'corner'}
        onClick={() => shapeDo('remove')}
      >
        {phrase('Remove')}
      </button>
      <button type="button" disabled={picked !== 'edge' && picked !== 'arc'} onClick={() => shapeDo('bend')}>
        {picked === 'arc' ? phrase('Straight') : phrase('Bend')}
      </button>
      <button type="button" aria-label={phrase('Square up')} onClick={() => shapeDo('square')}>
        {phrase('Square')}
      </button>
    </>
  );
}
