// Breaklines: lines along which the ground breaks, drawn on the plan or typed as a table.
import { useState } from 'preact/hooks';
import type { BreaklineReading, Finding, GroundRecord, SpotRow } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { told } from '../fields/fields.tsx';
import { UNITS } from '../fields/units.ts';
import { askHeight } from '../plan/heights.ts';
import { pickPath, showPath } from '../plan/pick.ts';
import { edit, say } from '../state/actions.ts';
import { display, drawing } from '../state/store.ts';
import { count, phrase } from '../words/words.ts';
import { ChangeShapeButton } from './DrawButton.tsx';
import { linesOf, spotsOf } from './GroundStep.tsx';
import { PasteTable } from './PasteTable.tsx';
import { words } from './Spots.tsx';

const NOTHING: BreaklineReading = { lines: [], findings: [] };

export function Breaklines({ ground }: { ground: GroundRecord }) {
  const units = display.value;
  const spots = spotsOf(ground);
  const lines = linesOf(ground);
  const [typed, setTyped] = useState<string | null>(null);
  const written = useAsked((p) => p.write_breaklines(lines), [lines, units], '');
  const reading = useAsked(
    typed === null ? null : (p) => p.read_breaklines(typed, lines),
    [typed, units],
    NOTHING,
  );
  const set = (next: SpotRow[][]): Finding[] =>
    edit({ 'set-ground': { spots: { spots, ...(next.length > 0 ? { breaklines: next } : {}) } } });

  function take(next: SpotRow[][], done: string): void {
    const refused = told(set(next));
    say(refused ?? done, refused ? 'bad' : 'good');
  }

  async function draw(): Promise<void> {
    const path = await pickPath({ prompt: phrase('Breakline: mark its points'), closed: false });
    if (!path) return;
    if (path.some(([, , bulge]) => bulge)) {
      return say(phrase('A breakline runs straight from point to point. Draw it again without arcs.'), 'bad');
    }
    const line: SpotRow[] = [];
    for (const [i, [x, y]] of path.entries()) {
      showPath(path.slice(0, i + 1), false);
      const height = await askHeight(phrase('Breakline, point {number} of {all}', { number: i + 1, all: path.length }));
      if (height === null) break;
      line.push([x, y, height]);
    }
    showPath([], false);
    if (line.length < path.length) return say(phrase('The breakline was given up: every point needs an elevation.'));
    take([...lines, line], phrase('The breakline is in the ground.'));
  }

  return (
    <>
      <p class="field-hint">
        {phrase('The top and the foot of a bank, a curb, a wall: the surface keeps an edge along each. Where two cross they are joined; a wall is two lines a little apart.')}
      </p>
      <div class="buttons">
        <button type="button" class="main" disabled={drawing.value !== null} onClick={() => void draw()}>
          {phrase('Draw a breakline')}
        </button>
      </div>
      {lines.length > 0 && (
        <ol class="rows">
          {lines.map((line, index) => (
            <li key={index}>
              <div class="row">
                <span class="row-words">
                  <b>{phrase('Breakline {number}', { number: index + 1 })}</b>{' '}
            {count(line.length, '{n} point, from {spot}', '{n} points, from {spot}', { spot: line[0] ? words(line[0]) : '' })}
                </span>
                <ChangeShapeButton target={{ breakline: index }} text={phrase('Move')} />
                <button
                  type="button"
                  aria-label={phrase('Remove breakline {number}', { number: index + 1 })}
                  onClick={() => take(lines.filter((_, i) => i !== index), phrase('The breakline was removed.'))}
                >
                  {phrase('Remove')}
                </button>
              </div>
            </li>
          ))}
        </ol>
      )}
      <PasteTable
        label={phrase('Breaklines: east, north, elevation ({units})', { units: phrase(UNITS[units]) })}
        text={typed ?? written}
        changed={typed !== null}
        barred={false}
        findings={reading.findings}
        take={phrase('Use these breaklines')}
        onText={setTyped}
        onTake={() => {
          const refused = set(reading.lines);
          if (refused.length === 0) setTyped(null);
          return refused;
        }}
        hint={phrase('One point to a line; an empty line or a name starts the next breakline.')}
      />
    </>
  );
}
