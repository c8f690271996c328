// A shape in figures: whatever it is, everything of it can be typed.
import type { Finding, LotRecord, Point, ShapeRecord } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure } from '../../fields/fields.tsx';
import { phrase } from '../../words/words.ts';
import { PointsField } from './PointsField.tsx';
import { sidesOf } from './forms.ts';

interface Props {
  shape: ShapeRecord;
  lot: LotRecord;
  put: (shape: ShapeRecord) => Finding[];
}

export function ShapeFields({ shape, lot, put }: Props) {
  if ('area' in shape) return <PointsField label={phrase('Corners')} points={shape.area} commit={(area) => put({ area })} />;
  if ('track' in shape) return <PointsField label={phrase('Points')} points={shape.track} commit={(track) => put({ track })} />;
  if ('disc' in shape) {
    const { at, radius } = shape.disc;
    return (
      <>
        <Place at={at} put={(next) => put({ disc: { at: next, radius } })} />
        <Figure
          label={phrase('Radius')}
          measure="length"
          value={radius}
          commit={(next) => put({ disc: { at, radius: next } })}
        />
      </>
    );
  }
  if ('strip' in shape) {
    const { path, width } = shape.strip;
    return (
      <>
        <Figure
          label={phrase('Width')}
          measure="length"
          value={width}
          commit={(next) => put({ strip: { path, width: next } })}
        />
        <PointsField
          label={phrase('Points along its middle')}
          points={path}
          commit={(next) => put({ strip: { path: next, width } })}
        />
      </>
    );
  }
  if ('along' in shape) {
    const { course, width } = shape.along;
    return (
      <>
        <Choice
          label={phrase('Along')}
          value={String(course)}
          options={sidesOf(lot)}
          choose={(side) => put({ along: { course: Number(side), width } })}
          hint={phrase('It follows this side when the lot changes.')}
        />
        <Figure
          label={phrase('Width')}
          measure="length"
          value={width}
          commit={(next) => put({ along: { course, width: next } })}
        />
      </>
    );
  }
  const holes = shape.compound.reduce((sum, piece) => sum + (piece.holes?.length ?? 0), 0);
  return (
    <p class="field-hint">
      {phrase('Outlines: {outlines}, holes: {holes}. Its corners are kept as they came.', { outlines: shape.compound.length, holes })}
    </p>
  );
}

/** A position, east and north. */
export function Place({ at, put, what = phrase('Middle') }: { at: Point; put: (at: Point) => Finding[]; what?: string }) {
  return (
    <div class="pairs">
      <Figure
        label={phrase('{what}, east', { what })}
        measure="long-length"
        value={at[0]}
        commit={(east) => put([east, at[1]])}
      />
      <Figure
        label={phrase('{what}, north', { what })}
        measure="long-length"
        value={at[1]}
        commit={(north) => put([at[0], north])}
      />
    </div>
  );
}
