// How a side runs: straight by bearing and distance, or a curve by its chord, radius and turn.
import type { CourseShape, Finding } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure, show } from '../fields/fields.tsx';

/** A side's run in short. */
export function runOf(shape: CourseShape): string {
  if ('line' in shape) {
    return `${show(shape.line.bearing, 'bearing')}, ${show(shape.line.distance, 'long-length')}`;
  }
  const { chord_bearing, chord, radius, turn } = shape.curve;
  const run = `${show(chord_bearing, 'bearing')}, ${show(chord, 'long-length')}`;
  return `Curve to the ${turn}, chord ${run}, radius ${show(radius, 'long-length')}`;
}

const FORMS = [
  { value: 'line', text: 'Straight' },
  { value: 'curve', text: 'Curve' },
] as const;
const TURNS = [
  { value: 'left', text: 'To the left' },
  { value: 'right', text: 'To the right' },
] as const;
const ARCS = [
  { value: 'short', text: 'The shorter arc' },
  { value: 'long', text: 'The longer arc' },
] as const;

/** The same ends, straight or curved. */
function inForm(shape: CourseShape, form: 'line' | 'curve'): CourseShape {
  if (form in shape) return shape;
  if ('line' in shape) {
    const { bearing, distance } = shape.line;
    return { curve: { chord_bearing: bearing, chord: distance, radius: distance, turn: 'left' } };
  }
  return { line: { bearing: shape.curve.chord_bearing, distance: shape.curve.chord } };
}

interface Props {
  shape: CourseShape;
  put: (shape: CourseShape) => void;
}

export function CourseRun({ shape, put }: Props) {
  const taken = (next: CourseShape): Finding[] => {
    put(next);
    return [];
  };
  const form = 'line' in shape ? 'line' : 'curve';
  return (
    <>
      <Choice label="Runs" value={form} options={FORMS} choose={(it) => put(inForm(shape, it))} />
      {'line' in shape ? <Straight line={shape.line} put={taken} /> : <Curved curve={shape.curve} put={taken} />}
    </>
  );
}

type Line = Extract<CourseShape, { line: unknown }>['line'];
type Curve = Extract<CourseShape, { curve: unknown }>['curve'];

function Straight({ line, put }: { line: Line; put: (shape: CourseShape) => Finding[] }) {
  const { bearing, distance } = line;
  return (
    <div class="pair">
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
    </div>
  );
}

function Curved({ curve, put }: { curve: Curve; put: (shape: CourseShape) => Finding[] }) {
  const change = (it: Partial<Curve>) => put({ curve: { ...curve, ...it } });
  return (
    <>
      <div class="pair">
        <Figure
          label="Chord bearing"
          measure="bearing"
          value={curve.chord_bearing}
          commit={(chord_bearing) => change({ chord_bearing })}
        />
        <Figure label="Chord" measure="long-length" value={curve.chord} commit={(chord) => change({ chord })} />
      </div>
      <div class="pair">
        <Figure label="Radius" measure="long-length" value={curve.radius} commit={(radius) => change({ radius })} />
        <Choice label="Bends" value={curve.turn} options={TURNS} choose={(turn) => void change({ turn })} />
      </div>
      <Choice
        label="Which arc"
        value={curve.long_way ? 'long' : 'short'}
        options={ARCS}
        choose={(it) => void change({ long_way: it === 'long' })}
      />
    </>
  );
}
