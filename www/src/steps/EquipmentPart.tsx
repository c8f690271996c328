// The pad for pump, filter and heater.
import type { EquipmentPad, Point } from '../core/types.ts';
import { ask } from '../core/planner.ts';
import { Figure, read } from '../fields/fields.tsx';
import { current } from '../plan/view.ts';
import { edit, editOrTell } from '../state/actions.ts';
import { ledger } from '../state/store.ts';
import { phrase } from '../words/words.ts';

/** A usual size of a pad; common practice, no source. */
const USUAL = { length: '4 ft', width: '3 ft' };
/** How far from the shell's middle a pad is first tried, and in how many directions. */
const TRIED_AT = '25 ft';
const DIRECTIONS = 16;

function metres(text: string): number {
  const reading = read(text, 'length');
  return reading.ok ? reading.value : 1;
}

/** A place near the shell where nothing stands, or the middle of the view. */
function freePlace(): Point {
  const { x, y, scale } = current.view;
  const shell = ledger.value?.shell;
  if (!shell) return [x, y];
  const away = metres(TRIED_AT);
  for (let i = 0; i < DIRECTIONS; i += 1) {
    const angle = (i / DIRECTIONS) * 2 * Math.PI;
    const place: Point = [shell.at[0] + away * Math.cos(angle), shell.at[1] + away * Math.sin(angle)];
    const taken = ask((p) => p.hover(...place, 1, scale) ?? p.feature_at(...place, 1), undefined);
    if (!taken && inside(place)) return place;
  }
  return [x, y];
}

function inside([x, y]: Point): boolean {
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = ask((p) => Array.from(p.extent()), []);
  return x > x0 + 1 && x < x1 - 1 && y > y0 + 1 && y < y1 - 1;
}

export function EquipmentPart({ pad }: { pad: EquipmentPad | null }) {
  if (!pad) {
    const place = () =>
      editOrTell(
        {
          'set-equipment': {
            at: freePlace(),
            heading: 0,
            length: metres(USUAL.length),
            width: metres(USUAL.width),
          },
        },
        phrase('The pad was not placed.'),
      );
    return (
      <button type="button" class="main" onClick={place}>
        {phrase('Place the equipment pad')}
      </button>
    );
  }
  const put = (change: Partial<EquipmentPad>) => edit({ 'set-equipment': { ...pad, ...change } });
  return (
    <>
      <p class="field-hint">{phrase('Drag the pad on the plan.')}</p>
      <Figure label={phrase('Length')} measure="length" value={pad.length} commit={(length) => put({ length })} />
      <Figure label={phrase('Width')} measure="length" value={pad.width} commit={(width) => put({ width })} />
      <Figure label={phrase('Bearing')} measure="heading" value={pad.heading} commit={(heading) => put({ heading })} />
      <Figure
        label={phrase('Middle, east')}
        measure="long-length"
        value={pad.at[0]}
        commit={(east) => put({ at: [east, pad.at[1]] })}
      />
      <Figure
        label={phrase('Middle, north')}
        measure="long-length"
        value={pad.at[1]}
        commit={(north) => put({ at: [pad.at[0], north] })}
      />
      <button type="button" onClick={() => editOrTell({ 'set-equipment': null }, phrase('The pad was not taken away.'))}>
        {phrase('Take the pad away')}
      </button>
    </>
  );
}
