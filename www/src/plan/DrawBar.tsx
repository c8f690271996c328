// The bar over the plan while something is drawn: what is wanted, what the stretch in hand measures and why it
// lies where it does, boxes to type its figures, and the ways to go on.
import { useId, useRef } from 'preact/hooks';
import type { Drawn, Measure, Point, TypedAngle } from '../core/types.ts';
import { read, show } from '../fields/fields.tsx';
import { useCurrent } from '../fields/useCurrent.ts';
import { announce, drawing, snapping, type Drawing } from '../state/store.ts';
import { toggleSnap } from './keys.ts';
import { back, drawAs, finishDrawing, follow, giveUpDrawing, place, type } from './pick.ts';

const WAYS = [
  { value: 'bearing', text: 'Bearing' },
  { value: 'right', text: 'Turn right' },
  { value: 'left', text: 'Turn left' },
  { value: 'inside', text: 'Inside angle' },
] as const;

const MODES = [
  { value: 'straight', text: 'Straight' },
  { value: 'arc', text: 'Arc' },
  { value: 'rectangle', text: 'Rectangle' },
] as const;

const WANTS: Record<Drawn['wants'], string> = {
  first: 'Mark where it begins',
  next: 'Mark the next point, or type',
  'on-arc': 'Mark a point on the arc',
  'arc-end': 'Mark where the arc ends',
  opposite: 'Mark the opposite corner, or type the first side',
  width: 'Mark or type the width',
  rim: 'Mark a point on the circle, or type the radius',
};

export function DrawBar() {
  const now = drawing.value;
  return (
    <>
      <p class="unseen" role="status">
        {announce.value}
      </p>
      {now && <Bar now={now} key={now.prompt} />}
    </>
  );
}

function Bar({ now }: { now: Drawing }) {
  const { drawn, wanted } = now;
  const count = drawn?.points.length ?? 0;
  const begun = count > 0;
  return (
    <section
      class="draw-bar"
      aria-label="Drawing"
      onKeyDown={(event) => {
        if (event.key === 'Escape') giveUpDrawing();
      }}
    >
      <header class="draw-head">
        <h2>{now.prompt}</h2>
        <p class="draw-wants">{drawn ? WANTS[drawn.wants] : ''}</p>
      </header>
      <Figures drawn={drawn} word={now.word} />
      {begun ? <Typing key={count} wants={drawn?.wants ?? 'next'} turns={count > 1} /> : <Spot at={drawn?.at ?? now.hand} />}
      <div class="draw-buttons">
        {(wanted === 'open' || wanted === 'closed') && (
          <div class="draw-modes" role="group" aria-label="Next stretch">
            {MODES.filter(({ value }) => value !== 'rectangle' || wanted === 'closed').map((mode) => (
              <button
                key={mode.value}
                type="button"
                aria-pressed={drawn?.mode === mode.value}
                disabled={mode.value === 'rectangle' && count > 2}
                onClick={() => drawAs(mode.value)}
              >
                {mode.text}
              </button>
            ))}
          </div>
        )}
        {wanted === 'point' && (
          <button type="button" class="main" onClick={place}>
            Here
          </button>
        )}
        {wanted !== 'point' && (
          <button type="button" aria-label="Back one point" disabled={!begun} onClick={back}>
            Back
          </button>
        )}
        {(wanted === 'open' || wanted === 'closed') && (
          <button type="button" class="main" disabled={!drawn?.ready} onClick={finishDrawing}>
            {wanted === 'closed' ? 'Close it' : 'Done'}
          </button>
        )}
        <button type="button" onClick={() => giveUpDrawing()}>
          Cancel
        </button>
      </div>
    </section>
  );
}

/** Whether the hand is led. */
export function SnapToggle() {
  return (
    <button type="button" class="draw-snap" aria-label="Snap" aria-pressed={snapping.value} onClick={toggleSnap}>
      Snap
    </button>
  );
}

/** What the stretch in hand measures, and why it is where it is. */
function Figures({ drawn, word }: { drawn: Drawn | null; word: string }) {
  if (word) {
    return (
      <p class="draw-word" role="alert">
        {word}
      </p>
    );
  }
  return (
    <p class="draw-figures">
      {drawn?.length && <b>{drawn.length}</b>}
      {drawn?.bearing && <span>{drawn.bearing}</span>}
      {drawn?.turn && <span>{drawn.turn}</span>}
      {drawn?.radius && <span>radius {drawn.radius}</span>}
      <span class="draw-reason">{drawn?.closes ? 'closes the outline' : (drawn?.reason ?? '')}</span>
    </p>
  );
}

interface Box {
  text: string;
  value: number | undefined;
  fault: string;
}

const EMPTY: Box = { text: '', value: undefined, fault: '' };

function understood(text: string, measure: Measure): Box {
  if (text.trim() === '') return { ...EMPTY, text };
  const reading = read(text, measure);
  return reading.ok
    ? { text, value: reading.value, fault: '' }
    : { text, value: undefined, fault: `${reading.message} ${reading.remedy}` };
}

/** The first point by its figures, from the site's origin. What is left empty is where the cross stands. */
function Spot({ at }: { at: Point }) {
  const id = useId();
  const [typed, put] = useCurrent({ east: EMPTY, north: EMPTY });
  const fault = () => typed().east.fault || typed().north.fault;

  function preview(): void {
    const { east, north } = typed();
    if (east.value !== undefined || north.value !== undefined) {
      follow([east.value ?? at[0], north.value ?? at[1]], 'typed');
    }
  }

  const box = (label: string, name: 'east' | 'north', axis: 0 | 1) => (
    <div class="draw-box">
      <label for={`${id}-${label}`}>{label}</label>
      <input
        id={`${id}-${label}`}
        class={axis === 0 ? 'draw-length' : ''}
        autocomplete="off"
        spellcheck={false}
        data-typing=""
        value={typed()[name].text}
        placeholder={show(at[axis], 'long-length')}
        aria-invalid={typed()[name].fault !== ''}
        aria-describedby={`${id}-fault`}
        onInput={(event) => {
          put({ [name]: understood(event.currentTarget.value, 'long-length') });
          preview();
        }}
      />
    </div>
  );
  return (
    <form
      class="draw-typing"
      onSubmit={(event) => {
        event.preventDefault();
        if (fault()) return;
        // A mouse may have passed over the plan since.
        preview();
        place();
        requestAnimationFrame(() => document.querySelector<HTMLInputElement>('.draw-length')?.focus());
      }}
    >
      {box('East', 'east', 0)}
      {box('North', 'north', 1)}
      <button type="submit">Place</button>
      <SnapToggle />
      <p class="draw-fault" id={`${id}-fault`} aria-live="polite">
        {fault()}
      </p>
    </form>
  );
}

function typedAngle(how: string, angle: number): TypedAngle {
  if (how === 'right') return { right: angle };
  if (how === 'left') return { left: angle };
  return how === 'inside' ? { inside: angle } : { bearing: angle };
}

/** Length and angle of the next stretch. Enter places the point. */
function Typing({ wants, turns }: { wants: Drawn['wants']; turns: boolean }) {
  const alone = wants === 'width' || wants === 'rim';
  const id = useId();
  const [typed, put] = useCurrent({ length: EMPTY, angle: EMPTY, how: 'bearing' });
  const { length, angle, how } = typed();
  const form = useRef<HTMLFormElement>(null);

  function preview(next: Partial<ReturnType<typeof typed>>): void {
    put(next);
    const { length, angle, how } = typed();
    type(length.value, angle.value === undefined ? undefined : typedAngle(how, angle.value));
  }

  const angleBy = (how: string, text: string): Box => understood(text, how === 'bearing' ? 'bearing' : 'angle');
  const fault = length.fault || angle.fault;
  return (
    <form
      ref={form}
      class="draw-typing"
      onSubmit={(event) => {
        event.preventDefault();
        if (!typed().length.fault && !typed().angle.fault) placeTyped(form.current);
      }}
    >
      <div class="draw-box">
        <label for={`${id}-length`}>{wants === 'width' ? 'Width' : wants === 'rim' ? 'Radius' : 'Length'}</label>
        <input
          id={`${id}-length`}
          class="draw-length"
          autocomplete="off"
          spellcheck={false}
          data-typing=""
          value={length.text}
          aria-invalid={length.fault !== ''}
          aria-describedby={`${id}-fault`}
          onInput={(event) => preview({ length: understood(event.currentTarget.value, 'length') })}
        />
      </div>
      {!alone && (
        <>
          <div class="draw-box">
            <label for={`${id}-how`}>Angle by</label>
            <select
              id={`${id}-how`}
              value={how}
              onChange={(event) => {
                const how = event.currentTarget.value;
                preview({ how, angle: angleBy(how, typed().angle.text) });
              }}
            >
              {WAYS.filter(({ value }) => turns || value === 'bearing').map((way) => (
                <option key={way.value} value={way.value}>
                  {way.text}
                </option>
              ))}
            </select>
          </div>
          <div class="draw-box">
            <label for={`${id}-angle`}>Angle</label>
            <input
              id={`${id}-angle`}
              autocomplete="off"
              spellcheck={false}
              data-typing=""
              value={angle.text}
              aria-invalid={angle.fault !== ''}
              aria-describedby={`${id}-fault`}
              onInput={(event) => preview({ angle: angleBy(typed().how, event.currentTarget.value) })}
            />
          </div>
        </>
      )}
      <button type="submit">Place</button>
      <SnapToggle />
      <p class="draw-fault" id={`${id}-fault`} aria-live="polite">
        {fault}
      </p>
    </form>
  );
}

/** Places the point, and has the next figures typed where these were. */
function placeTyped(form: HTMLFormElement | null): void {
  const typing = form?.contains(document.activeElement) ?? false;
  place();
  if (typing) requestAnimationFrame(() => document.querySelector<HTMLInputElement>('.draw-length')?.focus());
}
