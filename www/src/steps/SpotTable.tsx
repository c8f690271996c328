// Spot elevations, typed or pasted as a table; the last column may hold rod readings.
import { useState } from 'preact/hooks';
import { lookAt } from '../bring/incoming.ts';
import type { Benchmark, Finding, SpotReading, SpotRow } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { UNITS } from '../fields/units.ts';
import { display } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { PasteTable } from './PasteTable.tsx';

/** More spots than this are not shown as a table: nobody edits so many by hand. */
const MOST = 2000;

/** Every line has four columns or more, as a surveyor's list of points has: number, northing, easting, elevation, description. */
function isPointList(text: string): boolean {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  return lines.length > 0 && lines.every((line) => line.trim().split(/\s*[,;\t]\s*|\s+/).length > 3);
}

const NOTHING: SpotReading = { spots: [], findings: [] };

interface Props {
  spots: SpotRow[];
  benchmark: Benchmark | undefined;
  set: (spots: SpotRow[]) => Finding[];
}

export function SpotTable({ spots, benchmark, set }: Props) {
  const units = display.value;
  const [typed, setTyped] = useState<string | null>(null);
  const [rod, setRod] = useState(false);
  const [backsight, setBacksight] = useState<number | undefined>();
  const shown = spots.length <= MOST && !rod ? spots : [];
  const written = useAsked((p) => p.write_breaklines([shown]), [shown, units], '');
  const text = typed ?? written;
  const level = rod ? benchmark?.elevation : undefined;
  const reading = useAsked(
    typed === null ? null : (p) => p.read_spots(text, level, rod ? backsight : undefined, shown),
    [typed, units, level, backsight, rod],
    NOTHING,
  );
  const waits = rod && (level === undefined || backsight === undefined);
  // Rod readings are taken beside what is there; a table of elevations is the whole list.
  const next = rod ? [...spots, ...reading.spots] : reading.spots;

  return (
    <>
      <Choice
        label={phrase('The last column holds')}
        value={rod ? 'rod' : 'elevations'}
        options={[
          { value: 'elevations', text: 'elevations' },
          { value: 'rod', text: phrase('rod readings, from the benchmark') },
        ]}
        choose={(value) => {
          setRod(value === 'rod');
          setTyped(null);
        }}
      />
      {rod && (
        <Figure
          label={phrase('Rod reading on the benchmark (backsight)')}
          measure="elevation"
          value={backsight}
          commit={(value) => (setBacksight(value), [])}
          hint={
            benchmark
              ? phrase('The line of sight stands this far above the benchmark; each spot lies its own reading below that.')
              : phrase('Set the benchmark below first: readings count from it.')
          }
        />
      )}
      <PasteTable
        label={rod ? phrase('Spots: east, north, rod reading ({units})', { units: phrase(UNITS[units]) }) : phrase('Spots: east, north, elevation ({units})', { units: phrase(UNITS[units]) })}
        text={text}
        changed={typed !== null}
        barred={waits || reading.spots.length === 0}
        findings={reading.findings}
        offer={
          typed !== null && reading.findings.length > 0 && isPointList(typed) ? (
            <div class="caution" data-severity="note">
              {phrase("Each line has more than three columns, as a surveyor's list of points has.")}
              <button type="button" onClick={() => lookAt(typed, phrase('Pasted points'))}>
                {phrase('Bring it in as a list of points')}
              </button>
            </div>
          ) : null
        }
        take={rod ? phrase('Add these spots') : phrase('Use these spots')}
        onText={setTyped}
        onTake={() => {
          const refused = set(next);
          if (refused.length === 0) setTyped(null);
          return refused;
        }}
        hint={
          spots.length > MOST
            ? phrase('There are {number} spots, too many to show as a table; a table taken here replaces them.', { number: spots.length })
            : phrase("One to a line, separated by spaces, commas or tabs; paste from a spreadsheet. East and north count from the site's origin.")
        }
      />
    </>
  );
}
