// How the numbers of a map or a list are meant: what was proposed, and how else it can be taken.
import { Choice } from '../fields/Choice.tsx';
import { Tick } from '../fields/Tick.tsx';
import type { MapReading, MapSettings } from '../core/types.ts';

const FRAMES = [
  { value: 'degrees', text: 'Degrees (WGS 84)' },
  { value: 'feet', text: 'Feet' },
  { value: 'survey-feet', text: 'US survey feet' },
  { value: 'metres', text: 'Meters' },
] as const;
const HEIGHTS = [FRAMES[1], FRAMES[2], FRAMES[3]] as const;
const COLUMNS = [
  { value: 'neither', text: 'Neither' },
  { value: 'point', text: 'A point number first' },
  { value: 'elevation', text: 'An elevation third' },
  { value: 'both', text: 'Both' },
] as const;

interface Props {
  reading: MapReading;
  settings: MapSettings;
  rings: string[];
  set: (change: Partial<MapSettings>) => void;
}

export function Meaning({ reading, settings, rings, set }: Props) {
  const degrees = settings.frame === 'degrees';
  const [north, east] = degrees ? ['Latitude', 'Longitude'] : ['Northing', 'Easting'];
  return (
    <div class="bring-meaning">
      <Choice
        label="Coordinates are"
        value={settings.frame}
        options={FRAMES}
        choose={(frame) => set(frame === 'degrees' ? { frame } : { frame, heights: frame })}
      />
      <Choice
        label="First number is the"
        value={settings.order}
        options={[
          { value: 'north-first', text: `${north}` },
          { value: 'east-first', text: `${east}` },
        ]}
        choose={(order) => set({ order })}
      />
      <Choice label="Elevations are" value={settings.heights} options={HEIGHTS} choose={(heights) => set({ heights })} />
      {reading.form === 'points' && settings.columns && (
        <Choice
          label="Besides the coordinates there is"
          value={columnsOf(settings.columns)}
          options={COLUMNS}
          choose={(word) =>
            set({ columns: { point: word === 'point' || word === 'both', elevation: word === 'elevation' || word === 'both' } })
          }
        />
      )}
      {rings.length > 1 && (
        <Choice
          label="Boundary of the lot"
          value={String(settings.ring ?? '')}
          options={[
            { value: '', text: 'Choose a ring' },
            ...rings.map((length, i) => ({ value: String(i), text: `Ring ${i + 1}, ${length} round` })),
          ]}
          choose={(ring) => set({ ring: ring === '' ? null : Number(ring) })}
        />
      )}
      <Tick label="Set a new site origin" on={settings.fresh} set={(fresh) => set({ fresh })} />
      <Tick label="Keep the spots that are there" on={settings.keep_spots} set={(keep_spots) => set({ keep_spots })} />
      <Tick
        label="Whatever has an elevation is a spot too"
        on={settings.spots_of_all}
        set={(spots_of_all) => set({ spots_of_all })}
      />
    </div>
  );
}

function columnsOf({ point, elevation }: { point: boolean; elevation: boolean }): (typeof COLUMNS)[number]['value'] {
  if (point && elevation) return 'both';
  return point ? 'point' : elevation ? 'elevation' : 'neither';
}
