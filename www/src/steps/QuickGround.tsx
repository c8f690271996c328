// The quick ways to tell the ground: an elevation at every corner of the lot, or an even fall across it.
import { useState } from 'preact/hooks';
import { intake } from '../door/intake.ts';
import type { GroundRecord, LotRecord } from '../door/records.ts';
import type { GroundMade, LotCorner, Towards } from '../door/shapes.ts';
import { useIntake } from '../door/useIntake.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { editOrTell, say } from '../state/actions.ts';
import { display, trouble } from '../state/store.ts';

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

/** Takes ground over that the intake made, or tells why it made none. */
function take(made: GroundMade, done: string): void {
  if (!made.ground) {
    trouble.value = { title: 'The ground was not changed.', findings: made.findings };
  } else if (editOrTell({ 'set-ground': made.ground }, 'The ground was not changed.')) {
    say(done, 'good');
  }
}

const NOT_LOADED = 'A part of the planner did not load. See whether this device is connected, then try again.';

const NO_CORNERS: LotCorner[] = [];

function CornerHeights({ lot, ground }: Props) {
  const { value: corners } = useIntake((it) => it.lot_corners(lot, ground), [lot, ground], NO_CORNERS);
  const [typed, setTyped] = useState<Record<number, number | null>>({});
  const heightOf = (corner: LotCorner) => {
    const mine = typed[corner.course];
    return mine === undefined ? corner.elevation : mine;
  };
  const put = (corner: LotCorner, height: number | null) => {
    setTyped({ ...typed, [corner.course]: height });
    return [];
  };

  async function use(): Promise<void> {
    try {
      const made = (await intake()).ground_by_corners(lot, ground, corners.map(heightOf));
      take(made, 'Spots stand at the corners now, and their elevations can be changed below.');
      if (made.ground) setTyped({});
    } catch {
      say(NOT_LOADED, 'bad');
    }
  }

  return (
    <fieldset class="quick">
      <legend>Corner heights</legend>
      <p class="field-hint">
        One elevation to each corner of the lot. Along a curved side they run evenly from corner to corner. Other spots
        stay.
      </p>
      <div class="quick-fields">
        {corners.map((corner) => (
          <Figure
            key={corner.course}
            label={`Corner ${corner.course + 1}`}
            measure="elevation"
            value={heightOf(corner) ?? undefined}
            commit={(height) => put(corner, height)}
            clear={() => put(corner, null)}
            placeholder="not known"
            hint={corner.name}
          />
        ))}
      </div>
      <div class="buttons">
        <button type="button" class="main" disabled={corners.every((it) => heightOf(it) === null)} onClick={() => void use()}>
          Use these heights
        </button>
      </div>
    </fieldset>
  );
}

function FallAcross({ lot }: Props) {
  const units = display.value;
  const [from, setFrom] = useState<number | undefined>();
  const [drop, setDrop] = useState<number | undefined>();
  const [to, setTo] = useState('rear');
  const [bearing, setBearing] = useState<number | undefined>();
  const [made, setMade] = useState('');
  const sides = (lot.courses ?? []).map((course, index) => ({
    value: `side ${index}`,
    text: `side ${index + 1}: ${course.label || `${plain(course.kind ?? 'unspecified').toLowerCase()}`}`,
  }));
  const ways = [{ value: 'rear', text: 'the rear' }, ...sides, { value: 'bearing', text: 'a bearing' }];

  function towards(): Towards | null {
    if (to === 'bearing') return bearing === undefined ? null : { bearing: { bearing } };
    return to === 'rear' ? 'rear' : { side: { course: Number(to.slice(5)) } };
  }
  const way = towards();
  const ready = from !== undefined && drop !== undefined && way !== null;

  async function use(): Promise<void> {
    if (from === undefined || drop === undefined || way === null) return;
    try {
      const fall = (await intake()).ground_by_fall(lot, from, drop, way, units);
      setMade(fall.words);
      take(fall, `The ground falls evenly now: ${fall.words}.`);
    } catch {
      say(NOT_LOADED, 'bad');
    }
  }

  return (
    <fieldset class="quick">
      <legend>A fall across the lot</legend>
      <div class="quick-fields">
        <Figure
          label="Elevation where it begins"
          measure="elevation"
          value={from}
          commit={(value) => (setFrom(value), [])}
          hint="Towards the rear: at the front line."
        />
        <Figure
          label="Falls by"
          measure="length"
          value={drop}
          commit={(value) => (setDrop(value), [])}
          hint="In all, such as 3 ft; with a minus it rises."
        />
        <Choice label="Falls towards" value={to} options={ways} choose={setTo} />
        {to === 'bearing' && (
          <Figure
            label="Bearing it falls to"
            measure="heading"
            value={bearing}
            commit={(value) => (setBearing(value), [])}
          />
        )}
      </div>
      <div class="buttons">
        <button type="button" class="main" disabled={!ready} onClick={() => void use()}>
          Use this fall
        </button>
      </div>
      <p class="field-hint" aria-live="polite">
        {made && `Made: ${made}.`}
      </p>
    </fieldset>
  );
}
