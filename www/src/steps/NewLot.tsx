// A lot with four square corners, from two figures: the start of a job for which no deed is at hand.
import { useState } from 'preact/hooks';
import type { Course, LotRecord } from '../core/types.ts';
import { Figure, read } from '../fields/fields.tsx';
import { editOrTell } from '../state/actions.ts';
import { fitPlan } from '../plan/keys.ts';
import { phrase } from '../words/words.ts';
import { MakeButton } from './MakeButton.tsx';

/** The courses of a rectangle, walked from its south-west corner with the street in the south. */
export function rectangle(width: number, depth: number, quarter: number): Course[] {
  return [
    { kind: 'front', shape: { line: { bearing: quarter, distance: width } } },
    { kind: 'side', shape: { line: { bearing: 0, distance: depth } } },
    { kind: 'rear', shape: { line: { bearing: 3 * quarter, distance: width } } },
    { kind: 'side', shape: { line: { bearing: 2 * quarter, distance: depth } } },
  ];
}

export function NewLot({ lot }: { lot: LotRecord }) {
  const [width, setWidth] = useState<number>();
  const [depth, setDepth] = useState<number>();
  function make(): void {
    const quarter = read('90°', 'angle');
    if (!quarter.ok || width === undefined || depth === undefined) return;
    const { stated_area: _, ...rest } = lot;
    const courses = rectangle(width, depth, quarter.value);
    if (editOrTell({ 'set-lot': { ...rest, courses } }, phrase('The lot was not made.'))) fitPlan();
  }
  const sides: [string, number | undefined][] = [
    [phrase('the side along the street'), width],
    [phrase('the depth'), depth],
  ];
  const missing = sides.filter(([, length]) => length === undefined).map(([words]) => words);
  return (
    <details class="card">
      <summary>{phrase('Start again with a rectangle')}</summary>
      <Figure
        label={phrase('Along the street')}
        measure="long-length"
        value={width}
        commit={(it) => {
          setWidth(it);
          return [];
        }}
      />
      <Figure
        label={phrase('From street to rear')}
        measure="long-length"
        value={depth}
        commit={(it) => {
          setDepth(it);
          return [];
        }}
      />
      <MakeButton text={phrase('Make this lot')} missing={missing} make={make} />
      <p class="field-hint">{phrase('The sides are replaced. What stands on the lot stays where it is.')}</p>
    </details>
  );
}
