// The ground before the dig: level, falling evenly, or known from spots.
import type { GroundRecord } from '../door/records.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { ledger } from '../state/store.ts';
import { SpotTable } from './SpotTable.tsx';

type Kind = 'level' | 'plane' | 'spots';

const KINDS: { value: Kind; text: string }[] = [
  { value: 'level', text: 'Level' },
  { value: 'plane', text: 'An even fall' },
  { value: 'spots', text: 'Spot elevations' },
];

function kindOf(ground: GroundRecord): Kind {
  if ('level' in ground) return 'level';
  return 'plane' in ground ? 'plane' : 'spots';
}

function elevationOf(ground: GroundRecord): number {
  if ('level' in ground) return ground.level.elevation;
  if ('plane' in ground) return ground.plane.elevation;
  return ground.spots.spots[0]?.[2] ?? 0;
}

/** The same ground told another way, with the elevation that was there. */
function turnedInto(kind: Kind, ground: GroundRecord): GroundRecord {
  const elevation = elevationOf(ground);
  const [x, y] = ledger.value?.shell?.at ?? [0, 0];
  if (kind === 'level') return { level: { elevation } };
  if (kind === 'plane') return { plane: { at: [x, y], elevation, fall: 0, towards: 0 } };
  const around: [number, number][] = [
    [x - 15, y - 15],
    [x + 15, y - 15],
    [x + 15, y + 15],
    [x - 15, y + 15],
  ];
  return { spots: { spots: around.map(([east, north]) => [east, north, elevation]) } };
}

export function GroundStep({ ground }: { ground: GroundRecord }) {
  const set = (next: GroundRecord) => edit({ 'set-ground': next });
  return (
    <>
      <Choice
        label="What is known of the ground"
        value={kindOf(ground)}
        options={KINDS}
        choose={(kind) => editOrTell({ 'set-ground': turnedInto(kind, ground) }, 'The ground was not changed.')}
      />
      {'level' in ground && (
        <Figure
          label="Elevation of the ground"
          measure="elevation"
          value={ground.level.elevation}
          commit={(elevation) => set({ level: { elevation } })}
          hint="Above the site's own datum, the same as for the coping."
        />
      )}
      {'plane' in ground && <Plane plane={ground.plane} set={set} />}
      {'spots' in ground && <SpotTable spots={ground.spots.spots} set={(spots) => set({ spots: { spots } })} />}
      <p class="caution" data-severity="note">
        <strong>Note:</strong> The dig is cut from this ground. Elevations guessed from the street or a map can be feet
        out: shoot the spots with a level, or take them from a survey.
      </p>
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
        label="Elevation at the known point"
        measure="elevation"
        value={plane.elevation}
        commit={(elevation) => put({ elevation })}
      />
      <Figure label="Fall along the slope" measure="fraction" value={plane.fall} commit={(fall) => put({ fall })} />
      <Figure
        label="Falls towards (bearing)"
        measure="heading"
        value={plane.towards}
        commit={(towards) => put({ towards })}
        hint="Clockwise from north: 90° is east, 180° is south."
      />
      <Figure label="Known point, east" measure="long-length" value={x} commit={(east) => put({ at: [east, y] })} />
      <Figure label="Known point, north" measure="long-length" value={y} commit={(north) => put({ at: [x, north] })} />
    </>
  );
}
