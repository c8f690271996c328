// How a side runs: straight by bearing and distance, or a curve by its chord, radius and turn.
import type { CourseShape, Finding } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure, show } from '../fields/fields.tsx';
import { english, phrase, phrased } from '../words/words.ts';

/** A side's run in short. */
export function runOf(shape: CourseShape): string {
  if ('line' in shape) {
    return `${show(shape.line.bearing, 'bearing')}, ${show(shape.line.distance, 'long-length')}`;
  }
  const { chord_bearing, chord, radius, turn } = shape.curve;
  const run = `${show(chord_bearing, 'bearing')}, ${show(chord, 'long-length')}`;
  const values = { chord: run, radius: show(radius, 'long-length') };
  return turn === 'left'
    ? phrase('Curve to the left, chord {chord}, radius {radius}', values)
    : phrase('Curve to the right, chord {chord}, radius {radius}', values);
}

const FORMS = [
  { value: 'line', text: english('Straight') },
  { value: 'curve', text: english('Curve') },
] as const;
const TURNS = [
  { value: 'left', text: english('To the left') },
  { value: 'right', text: english('To the right') },
] as const;
const ARCS = [
  { value: 'short', text: english('The shorter arc') },
  { value: 'long', text: english('The longer arc') },
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
      <Choice label={phrase('Runs')} value={form} options={phrased(FORMS)} choose={(it) => put(inForm(shape, it))} />
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
        label={phrase('Bearing')}
        measure="bearing"
        value={bearing}
        commit={(it) => put({ line: { bearing: it, distance } })}
      />
      <Figure
        label={phrase('Distance')}
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
          label={phrase('Chord bearing')}
          measure="bearing"
          value={curve.chord_bearing}
          commit={(chord_bearing) => change({ chord_bearing })}
        />
        <Figure label={phrase('Chord')} measure="long-length" value={curve.chord} commit={(chord) => change({ chord })} />
      </div>
      <div class="pair">
        <Figure label={phrase('Radius')} measure="long-length" value={curve.radius} commit={(radius) => change({ radius })} />
        <Choice label={phrase('Bends')} value={curve.turn} options={phrased(TURNS)} choose={(turn) => void change({ turn })} />
      </div>
      <Choice
        label={phrase('Which arc')}
        value={curve.long_way ? 'long' : 'short'}
        options={phrased(ARCS)}
        choose={(it) => void change({ long_way: it === 'long' })}
      />
    </>
  );
}
