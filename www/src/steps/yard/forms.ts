// How each kind of thing on the lot is asked for. The core keeps the table; it is fetched once.
import type { Feature, FeatureKind, KindForm, LotRecord, ShapeForm, ShapeRecord } from '../../core/types.ts';
import { plain } from '../../fields/Choice.tsx';
import { ask } from '../../core/planner.ts';
import { english, phrase, type English } from '../../words/words.ts';

let table: KindForm[] = [];

/** Every kind, in the order lists show them. */
export function kindForms(): KindForm[] {
  if (table.length === 0) table = ask((p) => p.kind_forms(), []);
  return table;
}

export function formOf(kind: FeatureKind): KindForm | undefined {
  return kindForms().find((form) => form.kind === kind);
}

/** What the plan calls it. */
export const labelOf = (feature: Feature): string => feature.name || plain(feature.kind);

export const SHAPE_WORDS: Record<ShapeForm, English> = {
  area: english('Outline'),
  track: english('Line'),
  disc: english('Disc'),
  strip: english('Strip round a line'),
  along: english('Strip along a side of the lot'),
  compound: english('Several outlines with holes'),
};

/** How a shape is given. */
export const shapeForm = (shape: ShapeRecord): ShapeForm => Object.keys(shape)[0] as ShapeForm;

/** The sides of the lot, for a list to choose from; the value is the number of the course. */
export function sidesOf(lot: LotRecord): { value: string; text: string }[] {
  return (lot.courses ?? []).map((course, index) => ({
    value: String(index),
    text: phrase('Side {number}: {name}', { number: index + 1, name: course.label || plain(course.kind ?? 'unspecified').toLowerCase() }),
  }));
}

/** An id that no feature has yet. */
export function freshId(kind: FeatureKind, features: Pick<Feature, 'id'>[]): string {
  const taken = new Set(features.map((feature) => feature.id));
  for (let n = 1; ; n += 1) {
    const id = n === 1 ? kind : `${kind}-${n}`;
    if (!taken.has(id)) return id;
  }
}
