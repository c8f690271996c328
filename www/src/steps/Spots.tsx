// Spot elevations: marked on the plan, changed one by one, typed or pasted as a table.
import { signal } from '@preact/signals';
import { useState } from 'preact/hooks';
import type { Benchmark, Finding, GroundRecord, SpotRow } from '../core/types.ts';
import { Figure, show, told } from '../fields/fields.tsx';
import { askHeight } from '../plan/heights.ts';
import { pickPoint, showPath } from '../plan/pick.ts';
import { edit, say } from '../state/actions.ts';
import { drawing } from '../state/store.ts';
import { ChangeShapeButton } from './DrawButton.tsx';
import { linesOf, spotsOf } from './GroundStep.tsx';
import { SpotTable } from './SpotTable.tsx';

/** Spots marked before there are three of them; a surface needs three. */
const begun = signal<SpotRow[]>([]);

/** Spots shown at once. */
const PAGE = 10;

export function Spots({ ground, benchmark }: { ground: GroundRecord; benchmark: Benchmark | undefined }) {
  const spots = spotsOf(ground);
  const lines = linesOf(ground);
  const set = (next: SpotRow[]): Finding[] =>
    edit({ 'set-ground': { spots: { spots: next, ...(lines.length > 0 ? { breaklines: lines } : {}) } } });

  async function mark(): Promise<void> {
    const known = spots.length > 0;
    let all = [...spots, ...begun.value];
    for (;;) {
      const at = await pickPoint(`Spot ${all.length + 1}: mark where it is`);
      if (!at) break;
      showPath([at], false);
      const height = await askHeight(`Spot ${all.length + 1}`);
      if (height === null) break;
      all = [...all, [at[0], at[1], height]];
      const refused = known || all.length >= 3 ? told(set(all)) : undefined;
      if (known && refused) {
        say(refused, 'bad');
        all = all.slice(0, -1);
      } else if (all.length < 3 || refused) {
        begun.value = all;
        showPath(all.map(([x, y]) => [x, y]), false);
        if (refused) say(refused, 'bad');
      } else {
        begun.value = [];
        showPath([], false);
      }
    }
    if (begun.value.length === 0) showPath([], false);
    if (begun.value.length > 0) say(`${begun.value.length} spots marked so far. A surface needs three, not on one line.`);
  }

  function forget(): void {
    begun.value = [];
    showPath([], false);
  }

  return (
    <>
      <div class="buttons">
        <button type="button" class="main" disabled={drawing.value !== null} onClick={() => void mark()}>
          Mark spots on the plan
        </button>
        {spots.length > 0 && <ChangeShapeButton target="spots" text="Move spots on the plan" />}
        {begun.value.length > 0 && (
          <button type="button" onClick={forget}>
            Remove the {begun.value.length} marked
          </button>
        )}
      </div>
      {spots.length > 0 && <SpotList spots={spots} set={set} />}
      <SpotTable spots={spots} benchmark={benchmark} set={set} />
    </>
  );
}

/** A spot in words. */
export function words([x, y, z]: SpotRow): string {
  return `${show(z, 'elevation')} at ${show(x, 'long-length')} east, ${show(y, 'long-length')} north`;
}

function SpotList({ spots, set }: { spots: SpotRow[]; set: (spots: SpotRow[]) => Finding[] }) {
  const [first, setFirst] = useState(0);
  const [open, setOpen] = useState<number | null>(null);
  const start = first < spots.length ? first : 0;
  const shown = spots.slice(start, start + PAGE);

  function change(index: number, column: number, value: number): Finding[] {
    const next = spots.map((spot, i): SpotRow => {
      if (i !== index) return spot;
      const [x, y, z] = spot;
      return [column === 0 ? value : x, column === 1 ? value : y, column === 2 ? value : z];
    });
    return set(next);
  }

  function remove(index: number): void {
    setOpen(null);
    const findings = set(spots.filter((_, i) => i !== index));
    if (findings.length > 0) say(told(findings) ?? '', 'bad');
  }

  return (
    <>
      <ol class="rows" start={start + 1}>
        {shown.map((spot, i) => {
          const index = start + i;
          const [x, y, z] = spot;
          return (
            <li key={index}>
              <div class="row">
                <span class="row-words">
                  <b>Spot {index + 1}</b> {words(spot)}
                </span>
                <button
                  type="button"
                  aria-expanded={open === index}
                  aria-label={`Change spot ${index + 1}`}
                  onClick={() => setOpen(open === index ? null : index)}
                >
                  Change
                </button>
                <button type="button" aria-label={`Remove spot ${index + 1}`} onClick={() => remove(index)}>
                  Remove
                </button>
              </div>
              {open === index && (
                <div class="quick-fields">
                  <Figure label={`Spot ${index + 1}, elevation`} measure="elevation" value={z} commit={(v) => change(index, 2, v)} />
                  <Figure label={`Spot ${index + 1}, east`} measure="long-length" value={x} commit={(v) => change(index, 0, v)} />
                  <Figure label={`Spot ${index + 1}, north`} measure="long-length" value={y} commit={(v) => change(index, 1, v)} />
                </div>
              )}
            </li>
          );
        })}
      </ol>
      {spots.length > PAGE && (
        <div class="buttons" role="group" aria-label="Pages of spots">
          <button type="button" disabled={start === 0} onClick={() => setFirst(Math.max(0, start - PAGE))}>
            Earlier
          </button>
          <span class="row-words">
            {start + 1} to {start + shown.length} of {spots.length}
          </span>
          <button type="button" disabled={start + PAGE >= spots.length} onClick={() => setFirst(start + PAGE)}>
            Later
          </button>
        </div>
      )}
    </>
  );
}
