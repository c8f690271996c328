// The sides of the lot, one course of the deed after the other.
import { LINE_KINDS, type Course, type LotRecord } from '../door/records.ts';
import type { Finding } from '../door/shapes.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { Figure, show } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { NewLot } from './NewLot.tsx';

const KINDS = LINE_KINDS.map((value) => ({ value, text: plain(value) }));

export function Sides({ lot }: { lot: LotRecord }) {
  const courses = lot.courses ?? [];
  const put = (index: number, change: Partial<Course>): Finding[] =>
    edit({ 'set-lot': { ...lot, courses: courses.map((it, i) => (i === index ? { ...it, ...change } : it)) } });
  const keep = (next: Course[], title: string) => void editOrTell({ 'set-lot': { ...lot, courses: next } }, title);
  const another: Course = { kind: 'unspecified', shape: { line: { bearing: 0, distance: 10 } } };
  return (
    <>
      <ol class="cards">
        {courses.map((course, index) => (
          <li key={index} class="card">
            <Choice
              label={`Kind of side ${index + 1}`}
              value={course.kind ?? 'unspecified'}
              options={KINDS}
              choose={(kind) => put(index, { kind })}
            />
            <details>
              <summary>{runOf(course)}</summary>
              <Run course={course} put={(shape) => put(index, { shape })} />
              <TextField label="Called" value={course.label ?? ''} commit={(label) => put(index, { label })} />
              <button
                type="button"
                onClick={() => keep(courses.filter((_, i) => i !== index), 'The side was not taken out.')}
              >
                Take out this side
              </button>
            </details>
          </li>
        ))}
      </ol>
      <div class="buttons">
        <button type="button" onClick={() => keep([...courses, another], 'The side was not added.')}>
          Add a side
        </button>
      </div>
      <NewLot lot={lot} />
      <p class="field-hint">
        Take bearings and distances from the deed or the plat. This is a planning aid, not a survey: only a licensed
        surveyor can say where a line is.
      </p>
    </>
  );
}

/** A side's run in short. */
function runOf({ shape }: Course): string {
  const [bearing, length] =
    'line' in shape ? [shape.line.bearing, shape.line.distance] : [shape.curve.chord_bearing, shape.curve.chord];
  const run = `${show(bearing, 'bearing')}, ${show(length, 'long-length')}`;
  return 'line' in shape ? run : `Curve, chord ${run}`;
}

interface RunProps {
  course: Course;
  put: (shape: Course['shape']) => Finding[];
}

function Run({ course: { shape }, put }: RunProps) {
  if ('line' in shape) {
    const { bearing, distance } = shape.line;
    return (
      <>
        <Figure
          label="Bearing"
          measure="bearing"
          value={bearing}
          commit={(it) => put({ line: { bearing: it, distance } })}
        />
        <Figure
          label="Distance"
          measure="long-length"
          value={distance}
          commit={(it) => put({ line: { bearing, distance: it } })}
        />
      </>
    );
  }
  const { curve } = shape;
  const change = (it: Partial<typeof curve>) => put({ curve: { ...curve, ...it } });
  return (
    <>
      <Figure
        label="Chord bearing"
        measure="bearing"
        value={curve.chord_bearing}
        commit={(chord_bearing) => change({ chord_bearing })}
      />
      <Figure label="Chord" measure="long-length" value={curve.chord} commit={(chord) => change({ chord })} />
      <Figure label="Radius" measure="long-length" value={curve.radius} commit={(radius) => change({ radius })} />
      <p class="field-hint">A curve to the {curve.turn}.</p>
    </>
  );
}
