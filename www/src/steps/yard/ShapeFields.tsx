// A shape in figures: whatever it is, everything of it can be typed.
import type { Finding, LotRecord, Point, ShapeRecord } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure } from '../../fields/fields.tsx';
import { PointsField } from './PointsField.tsx';
import { sidesOf } from './forms.ts';

interface Props {
  shape: ShapeRecord;
  lot: LotRecord;
  put: (shape: ShapeRecord) => Finding[];
}

export function ShapeFields({ shape, lot, put }: Props) {
  if ('area' in shape) return <PointsField label="Corners" points={shape.area} commit={(area) => put({ area })} />;
  if ('track' in shape) return <PointsField label="Points" points={shape.track} commit={(track) => put({ track })} />;
  if ('disc' in shape) {
    const { at, radius } = shape.disc;
    return (
      <>
        <Place at={at} put={(next) => put({ disc: { at: next, radius } })} />
        <Figure
          label="Radius"
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
          label="Width"
          measure="length"
          value={width}
          commit={(next) => put({ strip: { path, width: next } })}
        />
        <PointsField
          label="Points along its middle"
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
          label="Along"
          value={String(course)}
          options={sidesOf(lot)}
          choose={(side) => put({ along: { course: Number(side), width } })}
          hint="It follows this side when the lot changes."
        />
        <Figure
          label="Width"
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
      Outlines: {shape.compound.length}, holes: {holes}. Its corners are kept as they came.
    </p>
  );
}

/** A position, east and north. */
export function Place({ at, put, what = 'Middle' }: { at: Point; put: (at: Point) => Finding[]; what?: string }) {
  return (
    <div class="pairs">
      <Figure
        label={`${what}, east`}
        measure="long-length"
        value={at[0]}
        commit={(east) => put([east, at[1]])}
      />
      <Figure
        label={`${what}, north`}
        measure="long-length"
        value={at[1]}
        commit={(north) => put([at[0], north])}
      />
    </div>
  );
}
