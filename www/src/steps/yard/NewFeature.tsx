// Something new on the lot: what it is, how its shape is given, and the figures of that.
import { useState } from 'preact/hooks';
import { ask } from '../../core/planner.ts';
import type { Feature, FeatureKind, LotRecord, ShapeForm, ShapeRecord, Vertex } from '../../core/types.ts';
import { Choice, plain } from '../../fields/Choice.tsx';
import { Figure, read } from '../../fields/fields.tsx';
import { TextField } from '../../fields/TextField.tsx';
import { editOrTell } from '../../state/actions.ts';
import { chosenFeature, site } from '../../state/store.ts';
import { english, heard, phrase, type English } from '../../words/words.ts';
import { DrawButton } from '../DrawButton.tsx';
import { MakeButton } from '../MakeButton.tsx';
import { WalkPart } from '../WalkPart.tsx';
import { PointsField } from './PointsField.tsx';
import { formOf, freshId, kindForms, SHAPE_WORDS, sidesOf } from './forms.ts';

interface Draft {
  east?: number;
  north?: number;
  bearing?: number;
  length?: number;
  width?: number;
  radius?: number;
  course?: number;
  points?: Vertex[];
}

/** Ways to give a shape: its forms, and the outline that is a rectangle. */
type Way = ShapeForm | 'rectangle';

const WAY_WORDS: Record<Way, English> = { ...SHAPE_WORDS, area: english('Outline by its corners'), rectangle: english('Rectangle') };

const waysOf = (kind: FeatureKind): Way[] =>
  (formOf(kind)?.shapes ?? []).flatMap((form): Way[] => (form === 'area' ? ['rectangle', 'area'] : [form]));

/** The shape of a draft once every figure it needs is there. */
function shapeOf(way: Way, draft: Draft): ShapeRecord | undefined {
  const { east, north, bearing, length, width, radius, points = [] } = draft;
  switch (way) {
    case 'rectangle': {
      if (east === undefined || north === undefined || length === undefined || width === undefined) return undefined;
      const flat = ask((p) => p.rectangle(east, north, bearing ?? eastward(), length, width), undefined);
      return flat && { area: pairs(flat) };
    }
    case 'disc':
      if (east === undefined || north === undefined || radius === undefined) return undefined;
      return { disc: { at: [east, north], radius } };
    case 'area':
      return points.length > 1 ? { area: points } : undefined;
    case 'track':
      return points.length > 1 ? { track: points } : undefined;
    case 'strip':
      return points.length > 1 && width !== undefined ? { strip: { path: points, width } } : undefined;
    case 'along':
      return width === undefined ? undefined : { along: { course: draft.course ?? 0, width } };
    default:
      return undefined;
  }
}

/** What a draft still needs for its shape. */
function missingOf(way: Way, { east, north, length, width, radius, points = [] }: Draft): string[] {
  const point: [string, unknown][] = [
    [phrase('east'), east],
    [phrase('north'), north],
  ];
  const path: [string, unknown][] = [[phrase('two points or more'), points.length > 1 || undefined]];
  const needs: Partial<Record<Way, [string, unknown][]>> = {
    rectangle: [...point, [phrase('length'), length], [phrase('width'), width]],
    disc: [...point, [phrase('radius'), radius]],
    area: path,
    track: path,
    strip: [...path, [phrase('width'), width]],
    along: [[phrase('width'), width]],
  };
  return (needs[way] ?? []).filter(([, value]) => value === undefined).map(([words]) => words);
}

function eastward(): number {
  const reading = read('90°', 'bearing');
  return reading.ok ? reading.value : 0;
}

function pairs(flat: Float64Array): Vertex[] {
  const points: Vertex[] = [];
  for (let i = 0; i + 1 < flat.length; i += 2) points.push([flat[i] ?? 0, flat[i + 1] ?? 0]);
  return points;
}

export function NewFeature({ features, lot }: { features: Feature[]; lot: LotRecord }) {
  const [kind, setKind] = useState<FeatureKind>('house');
  const [wanted, setWay] = useState<Way | null>(null);
  const [name, setName] = useState('');
  const [draft, setDraft] = useState<Draft>({});
  const ways = waysOf(kind);
  const way = wanted && ways.includes(wanted) ? wanted : (ways[0] ?? 'area');
  const shape = shapeOf(way, draft);

  function put(next: ShapeRecord): boolean {
    // A drawing takes its time: what is there by now counts.
    const there = site.value?.features ?? features;
    const id = freshId(kind, there);
    const feature: Feature = { id, kind, shape: next, ...(name ? { name } : {}) };
    if (!editOrTell({ 'set-features': [...there, feature] }, phrase('It was not put on the lot.'))) return false;
    setDraft({});
    setName('');
    chosenFeature.value = id;
    return true;
  }

  const keep = (change: Draft) => {
    setDraft((now) => ({ ...now, ...change }));
    return [];
  };
  const figure = (label: string, member: 'east' | 'north' | 'length' | 'width' | 'radius') => (
    <Figure
      label={label}
      measure="long-length"
      value={draft[member]}
      commit={(value) => keep({ [member]: value })}
    />
  );
  const drawn = way === 'rectangle' ? 'area' : way === 'along' || way === 'compound' ? null : way;
  const byPoints = way === 'area' || way === 'track' || way === 'strip';
  return (
    <details class="card new-feature">
      <summary>{phrase('Add something')}</summary>
      <Choice
        label={phrase('What it is')}
        value={kind}
        options={kindForms().filter((form) => !form.planned).map((form) => ({ value: form.kind, text: plain(form.words) }))}
        choose={setKind}
      />
      <TextField label={phrase('Name')} value={name} commit={setName} />
      {ways.length > 1 && (
        <Choice
          label={phrase('Its shape')}
          value={way}
          options={ways.map((value) => ({ value, text: phrase(WAY_WORDS[value]) }))}
          choose={setWay}
        />
      )}
      {(way === 'rectangle' || way === 'disc') && (
        <div class="pairs">
          {figure(way === 'disc' ? phrase('Middle, east') : phrase('A corner, east'), 'east')}
          {figure(way === 'disc' ? phrase('Middle, north') : phrase('The corner, north'), 'north')}
        </div>
      )}
      {way === 'rectangle' && (
        <>
          <Figure
            label={phrase('Bearing of its length')}
            measure="bearing"
            value={draft.bearing ?? eastward()}
            commit={(bearing) => keep({ bearing })}
          />
          <div class="pairs">
            {figure(phrase('Length'), 'length')}
            {figure(phrase('Width, to the left'), 'width')}
          </div>
        </>
      )}
      {way === 'disc' && figure(phrase('Radius'), 'radius')}
      {way === 'along' && (
        <Choice
          label={phrase('Along')}
          value={String(draft.course ?? 0)}
          options={sidesOf(lot)}
          choose={(side) => keep({ course: Number(side) })}
        />
      )}
      {(way === 'strip' || way === 'along') && figure(phrase('Width'), 'width')}
      {byPoints && (
        <PointsField
          label={way === 'area' ? phrase('Corners') : phrase('Points')}
          points={draft.points ?? []}
          commit={(points) => keep({ points })}
        />
      )}
      <div class="buttons">
        <MakeButton text={phrase('Put it on the lot')} missing={missingOf(way, draft)} make={() => shape && put(shape)} />
        {drawn && (
          <DrawButton
            name={name || phrase('the {thing}', { thing: heard(formOf(kind)?.words ?? 'thing') })}
            form={drawn}
            {...(draft.width === undefined ? {} : { width: draft.width })}
            text={way === 'strip' && draft.width === undefined ? phrase('Draw it (give its width first)') : phrase('Draw it')}
            disabled={way === 'strip' && draft.width === undefined}
            take={put}
          />
        )}
      </div>
      {(kind === 'house' || kind === 'outbuilding') && <WalkPart name={name || phrase('the {thing}', { thing: heard(kind) })} take={put} />}
    </details>
  );
}
