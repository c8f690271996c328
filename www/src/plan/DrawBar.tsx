// The bar over the plan while something is drawn: what is wanted, what the stretch in hand measures and why it
// lies where it does, boxes to type its figures, and the ways to go on.
import { useId, useRef } from 'preact/hooks';
import type { Drawn, Measure, Point, TypedAngle } from '../core/types.ts';
import { read, show } from '../fields/fields.tsx';
import { useCurrent } from '../fields/useCurrent.ts';
import { announce, drawing, snapping, type Drawing } from '../state/store.ts';
import { english, heard, phrase, type English } from '../words/words.ts';
import { toggleSnap } from './keys.ts';
import { back, drawAs, finishDrawing, follow, giveUpDrawing, place, type } from './pick.ts';

const WAYS = [
  { value: 'bearing', text: english('Bearing') },
  { value: 'right', text: english('Turn right') },
  { value: 'left', text: english('Turn left') },
  { value: 'inside', text: english('Inside angle') },
] as const;

const MODES = [
  { value: 'straight', text: english('Straight') },
  { value: 'arc', text: english('Arc') },
  { value: 'rectangle', text: english('Rectangle') },
] as const;

const WANTS: Record<Drawn['wants'], English> = {
  first: english('Mark where it begins'),
  next: english('Mark the next point, or type'),
  'on-arc': english('Mark a point on the arc'),
  'arc-end': english('Mark where the arc ends'),
  opposite: english('Mark the opposite corner, or type the first side'),
  width: english('Mark or type the width'),
  rim: english('Mark a point on the circle, or type the radius'),
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
  const marked = drawn?.points.length ?? 0;
  const begun = marked > 0;
  return (
    <section
      class="draw-bar"
      aria-label={phrase('Drawing')}
      onKeyDown={(event) => {
        if (event.key === 'Escape') giveUpDrawing();
      }}
    >
      <header class="draw-head">
        <h2>{now.prompt}</h2>
        <p class="draw-wants">{drawn ? phrase(WANTS[drawn.wants]) : ''}</p>
      </header>
      <Figures drawn={drawn} word={now.word} />
      {begun ? <Typing key={marked} wants={drawn?.wants ?? 'next'} turns={marked > 1} /> : <Spot at={drawn?.at ?? now.hand} />}
      <div class="draw-buttons">
        {(wanted === 'open' || wanted === 'closed') && (
          <div class="draw-modes" role="group" aria-label={phrase('Next stretch')}>
            {MODES.filter(({ value }) => value !== 'rectangle' || wanted === 'closed').map((mode) => (
              <button
                key={mode.value}
                type="button"
                aria-pressed={drawn?.mode === mode.value}
                disabled={mode.value === 'rectangle' && marked > 2}
                onClick={() => drawAs(mode.value)}
              >
                {phrase(mode.text)}
              </button>
            ))}
          </div>
        )}
        {wanted === 'point' && (
          <button type="button" class="main" onClick={place}>
            {phrase('Here')}
          </button>
        )}
        {wanted !== 'point' && (
          <button type="button" aria-label={phrase('Back one point')} disabled={!begun} onClick={back}>
            {phrase('Back')}
          </button>
        )}
        {(wanted === 'open' || wanted === 'closed') && (
          <button type="button" class="main" disabled={!drawn?.ready} onClick={finishDrawing}>
            {wanted === 'closed' ? phrase('Close it') : phrase('Done')}
          </button>
        )}
        <button type="button" onClick={() => giveUpDrawing()}>
          {phrase('Cancel')}
        </button>
      </div>
    </section>
  );
}

/** Whether the hand is led. */
export function SnapToggle() {
  return (
    <button type="button" class="draw-snap" aria-label={phrase('Snap')} aria-pressed={snapping.value} onClick={toggleSnap}>
      {phrase('Snap')}
    </button>
  );
}

/** What the stretch in hand measures, and why it is where it is. */
function Figures({ drawn, word }: { drawn: Drawn | null; word: string }) {
  if (word) {
    return (
      <p class="draw-word" role="alert">
        {heard(word)}
      </p>
    );
  }
  return (
    <p class="draw-figures">
      {drawn?.length && <b>{drawn.length}</b>}
      {drawn?.bearing && <span>{drawn.bearing}</span>}
      {drawn?.turn && <span>{heard(drawn.turn)}</span>}
      {drawn?.radius && <span>{phrase('radius {radius}', { radius: drawn.radius })}</span>}
      <span class="draw-reason">{drawn?.closes ? phrase('closes the outline') : heard(drawn?.reason ?? '')}</span>
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
    : { text, value: undefined, fault: `${heard(reading.message)} ${heard(reading.remedy)}` };
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
      {box(phrase('East'), 'east', 0)}
      {box(phrase('North'), 'north', 1)}
      <button type="submit">{phrase('Place')}</button>
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
        <label for={`${id}-length`}>{wants === 'width' ? phrase('Width') : wants === 'rim' ? phrase('Radius') : phrase('Length')}</label>
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
            <label for={`${id}-how`}>{phrase('Angle by')}</label>
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
                  {phrase(way.text)}
                </option>
              ))}
            </select>
          </div>
          <div class="draw-box">
            <label for={`${id}-angle`}>{phrase('Angle')}</label>
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
      <button type="submit">{phrase('Place')}</button>
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
