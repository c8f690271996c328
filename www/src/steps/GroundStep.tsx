// The ground before the dig: the quick ways first, then spots, breaklines, contours and the benchmark.
import type { Finding, GroundRecord, Site } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { findings, ledger } from '../state/store.ts';
import { english, heard, phrase, phrased, type English } from '../words/words.ts';
import { BenchmarkPart } from './BenchmarkPart.tsx';
import { Breaklines } from './Breaklines.tsx';
import { ContoursPart } from './ContoursPart.tsx';
import { QuickGround } from './QuickGround.tsx';
import { Spots } from './Spots.tsx';

type Kind = 'level' | 'plane' | 'spots';

const KINDS: { value: Kind; text: English }[] = [
  { value: 'level', text: english('Level') },
  { value: 'plane', text: english('An even fall') },
  { value: 'spots', text: english('Spot elevations') },
];

function kindOf(ground: GroundRecord): Kind {
  if ('level' in ground) return 'level';
  return 'plane' in ground ? 'plane' : 'spots';
}

function elevationOf(ground: GroundRecord): number {
  if ('level' in ground) return ground.level.elevation;
  if ('plane' in ground) return ground.plane.elevation;
  return ground.spots.spots[0]?.[2] ?? ground.spots.breaklines?.[0]?.[0]?.[2] ?? 0;
}

/** The same ground told in figures, with the elevation that was there. */
function turnedInto(kind: 'level' | 'plane', ground: GroundRecord): GroundRecord {
  const elevation = elevationOf(ground);
  if (kind === 'level') return { level: { elevation } };
  return { plane: { at: ledger.value?.shell?.at ?? [0, 0], elevation, fall: 0, towards: 0 } };
}

export function GroundStep({ site }: { site: Site }) {
  const { ground, lot } = site;
  const kind = kindOf(ground);
  const set = (next: GroundRecord) => edit({ 'set-ground': next });
  // Spots come from the parts below: there is no ground of spots before there are three of them.
  const kinds = KINDS.filter(({ value }) => value !== 'spots' || kind === 'spots');
  return (
    <>
      <Choice
        label={phrase('What is known of the ground')}
        value={kind}
        options={phrased(kinds)}
        choose={(next) =>
          next !== 'spots' && editOrTell({ 'set-ground': turnedInto(next, ground) }, phrase('The ground was not changed.'))
        }
      />
      {'level' in ground && (
        <Figure
          label={phrase('Elevation of the ground')}
          measure="elevation"
          value={ground.level.elevation}
          commit={(elevation) => set({ level: { elevation } })}
          hint={phrase("Above the site's own datum, the same as for the coping.")}
        />
      )}
      {'plane' in ground && <Plane plane={ground.plane} set={set} />}
      <Noticed all={findings.value} />
      <Part name={phrase('Quick ways')} open>
        <QuickGround lot={lot} ground={ground} />
      </Part>
      <Part name={`${phrase('Spots')}${kind === 'spots' ? ` (${spotsOf(ground).length})` : ''}`} open={kind === 'spots'}>
        <Spots ground={ground} benchmark={site.benchmark} />
      </Part>
      <Part name={`${phrase('Breaklines')}${linesOf(ground).length > 0 ? ` (${linesOf(ground).length})` : ''}`}>
        <Breaklines ground={ground} />
      </Part>
      <Part name={phrase('Contours')} open>
        <ContoursPart site={site} />
      </Part>
      <Part name={phrase('Benchmark')}>
        <BenchmarkPart benchmark={site.benchmark} />
      </Part>
      <p class="caution" data-severity="note">
        <strong>{phrase('Note:')}</strong> {phrase('The dig is cut from this ground. Elevations guessed from the street or a map can be feet out: shoot the spots with a level, or take them from a survey.')}
      </p>
    </>
  );
}

function Part({ name, open, children }: { name: string; open?: boolean; children: preact.ComponentChildren }) {
  return (
    <details class="part" open={open ?? false}>
      <summary>{name}</summary>
      <div class="part-body">{children}</div>
    </details>
  );
}

export const spotsOf = (ground: GroundRecord) => ('spots' in ground ? ground.spots.spots : []);
export const linesOf = (ground: GroundRecord) => ('spots' in ground ? (ground.spots.breaklines ?? []) : []);

/** What the core noticed about the ground. */
function Noticed({ all }: { all: Finding[] }) {
  const about = ({ pointer, code }: Finding) => /^\/(ground|benchmark|contours)/.test(pointer) || code === 'ground-assumed';
  return (
    <>
      {all.filter(about).map((it) => (
        <p class="caution" data-severity={it.severity} key={it.code + it.pointer + it.message}>
          <strong>{it.severity === 'note' ? phrase('Note:') : phrase('Caution:')}</strong> {heard(it.message)} {heard(it.remedy)}
        </p>
      ))}
    </>
  );
}

type PlaneRecord = Extract<GroundRecord, { plane: unknown }>['plane'];

function Plane({ plane, set }: { plane: PlaneRecord; set: (next: GroundRecord) => ReturnType<typeof edit> }) {
  const put = (change: Partial<PlaneRecord>) => set({ plane: { ...plane, ...change } });
  const [x, y] = plane.at;
  return (
    <>
      <Figure
        label={phrase('Elevation at the known point')}
        measure="elevation"
        value={plane.elevation}
        commit={(elevation) => put({ elevation })}
      />
      <Figure label={phrase('Fall along the slope')} measure="fraction" value={plane.fall} commit={(fall) => put({ fall })} />
      <Figure
        label={phrase('Falls toward (bearing)')}
        measure="heading"
        value={plane.towards}
        commit={(towards) => put({ towards })}
        hint={phrase('Clockwise from north: 90° is east, 180° is south.')}
      />
      <Figure label={phrase('Known point, east')} measure="long-length" value={x} commit={(east) => put({ at: [east, y] })} />
      <Figure label={phrase('Known point, north')} measure="long-length" value={y} commit={(north) => put({ at: [x, north] })} />
    </>
  );
}
