// Something new on the lot, typed: a rectangle by its corner and two lengths, or a disc.
import { useState } from 'preact/hooks';
import { FEATURE_KINDS, type Feature, type FeatureKind, type Point, type ShapeRecord } from '../door/records.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { editOrTell } from '../state/actions.ts';

const KINDS = FEATURE_KINDS.map((value) => ({ value, text: plain(value) }));
/** Kinds that are drawn round. */
const ROUND: readonly FeatureKind[] = ['tree', 'well'];

interface Draft {
  x?: number;
  y?: number;
  length?: number;
  width?: number;
  radius?: number;
}

/** The shape of a draft once every figure it needs is there. */
export function shapeOf(draft: Draft, round: boolean): ShapeRecord | undefined {
  const { x, y, length, width, radius } = draft;
  if (x === undefined || y === undefined) return undefined;
  const at: Point = [x, y];
  if (round) return radius === undefined ? undefined : { disc: { at, radius } };
  if (length === undefined || width === undefined) return undefined;
  const area: Point[] = [at, [x + length, y], [x + length, y + width], [x, y + width]];
  return { area };
}

/** An id that no feature has yet. */
export function freshId(kind: FeatureKind, features: Pick<Feature, 'id'>[]): string {
  const taken = new Set(features.map((feature) => feature.id));
  for (let n = 1; ; n += 1) {
    const id = n === 1 ? kind : `${kind}-${n}`;
    if (!taken.has(id)) return id;
  }
}

export function NewFeature({ features }: { features: Feature[] }) {
  const [kind, setKind] = useState<FeatureKind>('house');
  const [name, setName] = useState('');
  const [draft, setDraft] = useState<Draft>({});
  const round = ROUND.includes(kind);
  const shape = shapeOf(draft, round);
  const line = (label: string, member: keyof Draft) => (
    <Figure
      label={label}
      measure="long-length"
      value={draft[member]}
      commit={(value) => {
        setDraft((now) => ({ ...now, [member]: value }));
        return [];
      }}
    />
  );
  function add(): void {
    if (!shape) return;
    const feature: Feature = { id: freshId(kind, features), kind, shape, ...(name ? { name } : {}) };
    if (!editOrTell({ 'set-features': [...features, feature] }, 'It was not added.')) return;
    setDraft({});
    setName('');
  }
  return (
    <details class="card">
      <summary>Add something</summary>
      <Choice label="Kind" value={kind} options={KINDS} choose={setKind} />
      <TextField label="Name" value={name} commit={setName} />
      {line(round ? 'Middle, east' : 'South-west corner, east', 'x')}
      {line(round ? 'Middle, north' : 'South-west corner, north', 'y')}
      {round ? line('Radius', 'radius') : line('Length, west to east', 'length')}
      {!round && line('Width, south to north', 'width')}
      <button type="button" class="main" disabled={!shape} onClick={add}>
        Put it on the lot
      </button>
      <p class="field-hint">East and north count from the site's origin.</p>
    </details>
  );
}
