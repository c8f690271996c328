// A house walked wall by wall, as text: what was understood, the walk shown on the plan while it is written, and
// its way onto the lot.
import { useEffect, useId, useState } from 'preact/hooks';
import { useAsked } from '../core/useAsked.ts';
import type { Point, ShapeRecord, WalkPiece, WalkReading } from '../core/types.ts';
import { Figure, read } from '../fields/fields.tsx';
import { UNITS } from '../fields/units.ts';
import { pickStretch, showPath } from '../plan/pick.ts';
import { current } from '../plan/view.ts';
import { display } from '../state/store.ts';
import { count, heard, phrase } from '../words/words.ts';

const EXAMPLE = 'forward 24\', right 90°, forward 12\'6", left 90, forward 12\', right, forward 17\'6", right, forward 36\', close';

interface Read extends WalkReading {
  text: string;
}

const NOTHING: Read = {
  text: '',
  pieces: [],
  path: [],
  closed: false,
  walls: 0,
  misses: null,
  round: null,
  area: null,
  squared: null,
  findings: [],
};

export function WalkPart({ name = phrase('the house'), take }: { name?: string; take: (shape: ShapeRecord) => boolean }) {
  const id = useId();
  const units = display.value;
  const [text, setText] = useState('');
  const [start, setStart] = useState<Point>(() => [current.view.x, current.view.y]);
  const [facing, setFacing] = useState(() => {
    const east = read('90°', 'bearing');
    return east.ok ? east.value : 0;
  });
  const [square, setSquare] = useState(false);
  const empty = text.trim() === '';
  const walk = useAsked<Read>(
    empty ? null : (p) => ({ text, ...p.read_walk(text, start[0], start[1], facing, square) }),
    [text, start, facing, square, units],
    NOTHING,
  );
  useEffect(() => {
    showPath(empty ? [] : walk.path, walk.closed);
    return () => showPath([], false);
  }, [walk, empty]);
  const barred = empty || !walk.closed || walk.findings.some((finding) => finding.severity === 'fault');

  async function along(): Promise<void> {
    const wall = await pickStretch(phrase('Where {name} begins, then along its first wall', { name }));
    if (!wall) return;
    setStart(wall.at);
    setFacing(wall.bearing);
  }

  const moved = (axis: 0 | 1) => (value: number) => {
    setStart(axis === 0 ? [value, start[1]] : [start[0], value]);
    return [];
  };

  return (
    <details class="card walk">
      <summary>{phrase('Walk it wall by wall')}</summary>
      <div class="field">
        <label for={id}>{phrase('The walk')}</label>
        <textarea
          id={id}
          rows={5}
          spellcheck={false}
          value={text}
          placeholder={EXAMPLE}
          aria-describedby={`${id}-hint`}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <p class="field-hint" id={`${id}-hint`}>
          {phrase("Forward and a length, right or left and an angle (90° without one), arc left radius 5' angle 90°, close. Numbers without a unit are {units}.", { units: phrase(UNITS[units]) })}
        </p>
      </div>
      <div class="buttons">
        <button type="button" onClick={() => void along()}>
          {phrase('Pick its start and first wall')}
        </button>
        <button type="button" aria-pressed={square} onClick={() => setSquare(!square)}>
          {phrase('Square it up')}
        </button>
      </div>
      <div class="pairs">
        <Figure label={phrase('Start, east')} measure="long-length" value={start[0]} commit={moved(0)} />
        <Figure label={phrase('Start, north')} measure="long-length" value={start[1]} commit={moved(1)} />
      </div>
      <Figure
        label={phrase('First wall runs')}
        measure="bearing"
        value={facing}
        commit={(it) => {
          setFacing(it);
          return [];
        }}
      />
      {!empty && walk.text !== '' && <Understood text={walk.text} pieces={walk.pieces} />}
      <div aria-live="polite">
        {!empty &&
          walk.findings.map((it) => (
            <p class="caution" data-severity={it.severity} key={it.pointer + it.message}>
              {it.pointer.startsWith('line') && <strong>{heard(it.pointer)}: </strong>}
              {heard(it.message)} {heard(it.remedy)}
            </p>
          ))}
        {!empty && walk.walls > 0 && (
          <p class="walk-figures">
            {walk.area
              ? count(walk.walls, '{n} wall, {length} round, {area}.', '{n} walls, {length} round, {area}.', { length: walk.round ?? '', area: walk.area })
              : count(walk.walls, '{n} wall, {length} round.', '{n} walls, {length} round.', { length: walk.round ?? '' })}
            {walk.misses && walk.closed ? ` ${phrase('Start and end {gap} apart as walked.', { gap: walk.misses })}` : ''} {heard(walk.squared ?? '')}
          </p>
        )}
      </div>
      <button
        type="button"
        class="main"
        disabled={barred}
        onClick={() => {
          if (take({ area: walk.path })) setText('');
        }}
      >
        {phrase('Put {name} on the lot', { name })}
      </button>
    </details>
  );
}

/** The text again, each stretch with what it was taken for. */
function Understood({ text, pieces }: { text: string; pieces: WalkPiece[] }) {
  const letters = Array.from(text);
  return (
    <div class="deed-read" role="group" tabIndex={0} aria-label={phrase('What was understood of the walk')}>
      {pieces.map((piece) => {
        const [kind, says] = told(piece);
        return (
          <span class="deed-piece" data-kind={kind} key={piece.from}>
            <span class="deed-words">{letters.slice(piece.from, piece.to).join('')}</span>
            {says && <small> [{says}]</small>}
          </span>
        );
      })}
    </div>
  );
}

function told({ taken, message }: WalkPiece): [string, string] {
  if (taken === 'between') return ['connective', ''];
  if (taken === 'unread') return ['fault', phrase('not used')];
  if (taken === 'turn') return ['known', heard(message)];
  return ['known', phrase('wall {number}: {words}', { number: taken.wall + 1, words: heard(message) })];
}
