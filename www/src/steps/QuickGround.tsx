// The quick ways to tell the ground: an elevation at every corner of the lot, or an even fall across it.
import { useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import type { GroundMade, GroundRecord, LotCorner, LotRecord, Towards } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { editOrTell, say } from '../state/actions.ts';
import { trouble } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';

interface Props {
  lot: LotRecord;
  ground: GroundRecord;
}

export function QuickGround(props: Props) {
  return (
    <>
      <CornerHeights {...props} />
      <FallAcross {...props} />
    </>
  );
}

/** Takes ground over that was made from figures, or tells why none was. */
function take(made: GroundMade, done: string): void {
  if (!made.ground) {
    trouble.value = { title: phrase('The ground was not changed.'), findings: made.findings };
  } else if (editOrTell({ 'set-ground': made.ground }, phrase('The ground was not changed.'))) {
    say(done, 'good');
  }
}

const NO_CORNERS: LotCorner[] = [];

function CornerHeights({ lot, ground }: Props) {
  const corners = useAsked((p) => p.lot_corners(), [lot, ground], NO_CORNERS);
  const [typed, setTyped] = useState<Record<number, number | null>>({});
  const heightOf = (corner: LotCorner) => {
    const mine = typed[corner.course];
    return mine === undefined ? corner.elevation : mine;
  };
  const put = (corner: LotCorner, height: number | null) => {
    setTyped({ ...typed, [corner.course]: height });
    return [];
  };

  function use(): void {
    const heights = Float64Array.from(corners, (corner) => heightOf(corner) ?? Number.NaN);
    const made = ask((p) => p.ground_by_corners(heights), null);
    if (!made) return;
    take(made, phrase('Spots stand at the corners now, and their elevations can be changed below.'));
    if (made.ground) setTyped({});
  }

  return (
    <fieldset class="quick">
      <legend>{phrase('Corner heights')}</legend>
      <p class="field-hint">
        {phrase('One elevation to each corner of the lot. Along a curved side they run evenly from corner to corner. Other spots stay.')}
      </p>
      <div class="quick-fields">
        {corners.map((corner) => (
          <Figure
            key={corner.course}
            label={phrase('Corner {number}', { number: corner.course + 1 })}
            measure="elevation"
            value={heightOf(corner) ?? undefined}
            commit={(height) => put(corner, height)}
            clear={() => put(corner, null)}
            placeholder={phrase('not known')}
            hint={heard(corner.name)}
          />
        ))}
      </div>
      <div class="buttons">
        <button type="button" class="main" disabled={corners.every((it) => heightOf(it) === null)} onClick={use}>
          {phrase('Use these heights')}
        </button>
      </div>
    </fieldset>
  );
}

function FallAcross({ lot }: Props) {
  const [from, setFrom] = useState<number | undefined>();
  const [drop, setDrop] = useState<number | undefined>();
  const [to, setTo] = useState('rear');
  const [bearing, setBearing] = useState<number | undefined>();
  const [made, setMade] = useState('');
  const sides = (lot.courses ?? []).map((course, index) => ({
    value: `side ${index}`,
    text: phrase('side {number}: {name}', { number: index + 1, name: course.label || plain(course.kind ?? 'unspecified').toLowerCase() }),
  }));
  const ways = [{ value: 'rear', text: phrase('the rear') }, ...sides, { value: 'bearing', text: phrase('a bearing') }];

  function towards(): Towards | null {
    if (to === 'bearing') return bearing === undefined ? null : { bearing: { bearing } };
    return to === 'rear' ? 'rear' : { side: { course: Number(to.slice(5)) } };
  }
  const way = towards();
  const ready = from !== undefined && drop !== undefined && way !== null;

  function use(): void {
    if (from === undefined || drop === undefined || way === null) return;
    const fall = ask((p) => p.ground_by_fall(from, drop, way), null);
    if (!fall) return;
    setMade(fall.words);
    take(fall, phrase('The ground falls evenly now: {fall}.', { fall: heard(fall.words) }));
  }

  return (
    <fieldset class="quick">
      <legend>{phrase('A fall across the lot')}</legend>
      <div class="quick-fields">
        <Figure
          label={phrase('Elevation where it begins')}
          measure="elevation"
          value={from}
          commit={(value) => (setFrom(value), [])}
          hint={phrase('Towards the rear: at the front line.')}
        />
        <Figure
          label={phrase('Falls by')}
          measure="length"
          value={drop}
          commit={(value) => (setDrop(value), [])}
          hint={phrase('Total, such as 3 ft; a minus means it rises.')}
        />
        <Choice label={phrase('Falls toward')} value={to} options={ways} choose={setTo} />
        {to === 'bearing' && (
          <Figure
            label={phrase('Bearing it falls to')}
            measure="heading"
            value={bearing}
            commit={(value) => (setBearing(value), [])}
          />
        )}
      </div>
      <div class="buttons">
        <button type="button" class="main" disabled={!ready} onClick={use}>
          {phrase('Use this fall')}
        </button>
      </div>
      <p class="field-hint" aria-live="polite">
        {made && phrase('Made: {fall}.', { fall: heard(made) })}
      </p>
    </fieldset>
  );
}
