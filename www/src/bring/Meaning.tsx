// How the numbers of a map or a list are meant: what was proposed, and how else it can be taken.
import { Choice } from '../fields/Choice.tsx';
import { Tick } from '../fields/Tick.tsx';
import type { MapReading, MapSettings } from '../core/types.ts';
import { english, phrase, phrased } from '../words/words.ts';

const FRAMES = [
  { value: 'degrees', text: english('Degrees (WGS 84)') },
  { value: 'feet', text: english('Feet') },
  { value: 'survey-feet', text: english('US survey feet') },
  { value: 'metres', text: english('Meters') },
] as const;
const HEIGHTS = [FRAMES[1], FRAMES[2], FRAMES[3]] as const;
const COLUMNS = [
  { value: 'neither', text: english('Neither') },
  { value: 'point', text: english('A point number first') },
  { value: 'elevation', text: english('An elevation third') },
  { value: 'both', text: english('Both') },
] as const;

interface Props {
  reading: MapReading;
  settings: MapSettings;
  rings: string[];
  set: (change: Partial<MapSettings>) => void;
}

export function Meaning({ reading, settings, rings, set }: Props) {
  const degrees = settings.frame === 'degrees';
  const [north, east] = degrees ? [phrase('Latitude'), phrase('Longitude')] : [phrase('Northing'), phrase('Easting')];
  return (
    <div class="bring-meaning">
      <Choice
        label={phrase('Coordinates are')}
        value={settings.frame}
        options={phrased(FRAMES)}
        choose={(frame) => set(frame === 'degrees' ? { frame } : { frame, heights: frame })}
      />
      <Choice
        label={phrase('First number is the')}
        value={settings.order}
        options={[
          { value: 'north-first', text: `${north}` },
          { value: 'east-first', text: `${east}` },
        ]}
        choose={(order) => set({ order })}
      />
      <Choice label={phrase('Elevations are')} value={settings.heights} options={phrased(HEIGHTS)} choose={(heights) => set({ heights })} />
      {reading.form === 'points' && settings.columns && (
        <Choice
          label={phrase('Besides the coordinates there is')}
          value={columnsOf(settings.columns)}
          options={phrased(COLUMNS)}
          choose={(word) =>
            set({ columns: { point: word === 'point' || word === 'both', elevation: word === 'elevation' || word === 'both' } })
          }
        />
      )}
      {rings.length > 1 && (
        <Choice
          label={phrase('Boundary of the lot')}
          value={String(settings.ring ?? '')}
          options={[
            { value: '', text: phrase('Choose a ring') },
            ...rings.map((length, i) => ({ value: String(i), text: phrase('Ring {number}, {length} round', { number: i + 1, length }) })),
          ]}
          choose={(ring) => set({ ring: ring === '' ? null : Number(ring) })}
        />
      )}
      <Tick label={phrase('Set a new site origin')} on={settings.fresh} set={(fresh) => set({ fresh })} />
      <Tick label={phrase('Keep the spots that are there')} on={settings.keep_spots} set={(keep_spots) => set({ keep_spots })} />
      <Tick
        label={phrase('Whatever has an elevation is a spot too')}
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
