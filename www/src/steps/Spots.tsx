// Spot elevations: marked on the plan, changed one by one, typed or pasted as a table.
import { signal } from '@preact/signals';
import { useState } from 'preact/hooks';
import type { Benchmark, Finding, GroundRecord, SpotRow } from '../core/types.ts';
import { Figure, show, told } from '../fields/fields.tsx';
import { askHeight } from '../plan/heights.ts';
import { pickPoint, showPath } from '../plan/pick.ts';
import { edit, say } from '../state/actions.ts';
import { drawing } from '../state/store.ts';
import { count, phrase } from '../words/words.ts';
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
      const at = await pickPoint(phrase('Spot {number}: mark where it is', { number: all.length + 1 }));
      if (!at) break;
      showPath([at], false);
      const height = await askHeight(phrase('Spot {number}', { number: all.length + 1 }));
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
    if (begun.value.length > 0) say(count(begun.value.length, '{n} spot marked so far. A surface needs three, not on one line.', '{n} spots marked so far. A surface needs three, not on one line.'));
  }

  function forget(): void {
    begun.value = [];
    showPath([], false);
  }

  return (
    <>
      <div class="buttons">
        <button type="button" class="main" disabled={drawing.value !== null} onClick={() => void mark()}>
          {phrase('Mark spots on the plan')}
        </button>
        {spots.length > 0 && <ChangeShapeButton target="spots" text={phrase('Move spots on the plan')} />}
        {begun.value.length > 0 && (
          <button type="button" onClick={forget}>
            {phrase('Remove the {number} marked', { number: begun.value.length })}
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
  return phrase('{z} at {x} east, {y} north', { z: show(z, 'elevation'), x: show(x, 'long-length'), y: show(y, 'long-length') });
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
                  <b>{phrase('Spot {number}', { number: index + 1 })}</b> {words(spot)}
                </span>
                <button
                  type="button"
                  aria-expanded={open === index}
                  aria-label={phrase('Change spot {number}', { number: index + 1 })}
                  onClick={() => setOpen(open === index ? null : index)}
                >
                  {phrase('Change')}
                </button>
                <button type="button" aria-label={phrase('Remove spot {number}', { number: index + 1 })} onClick={() => remove(index)}>
                  {phrase('Remove')}
                </button>
              </div>
              {open === index && (
                <div class="quick-fields">
                  <Figure label={phrase('Spot {number}, elevation', { number: index + 1 })} measure="elevation" value={z} commit={(v) => change(index, 2, v)} />
                  <Figure label={phrase('Spot {number}, east', { number: index + 1 })} measure="long-length" value={x} commit={(v) => change(index, 0, v)} />
                  <Figure label={phrase('Spot {number}, north', { number: index + 1 })} measure="long-length" value={y} commit={(v) => change(index, 1, v)} />
                </div>
              )}
            </li>
          );
        })}
      </ol>
      {spots.length > PAGE && (
        <div class="buttons" role="group" aria-label={phrase('Pages of spots')}>
          <button type="button" disabled={start === 0} onClick={() => setFirst(Math.max(0, start - PAGE))}>
            {phrase('Earlier')}
          </button>
          <span class="row-words">
            {phrase('{first} to {last} of {all}', { first: start + 1, last: start + shown.length, all: spots.length })}
          </span>
          <button type="button" disabled={start + PAGE >= spots.length} onClick={() => setFirst(start + PAGE)}>
            {phrase('Later')}
          </button>
        </div>
      )}
    </>
  );
}
