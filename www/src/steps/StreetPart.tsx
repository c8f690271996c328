// Which side lies on the street: the kinds of all sides follow from the answer.
import { useEffect } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import type { Course, LotRecord } from '../core/types.ts';
import { editOrTell, say } from '../state/actions.ts';
import { askingStreet, chosenSide } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { runOf } from './CourseRun.tsx';

export function StreetPart({ lot }: { lot: LotRecord }) {
  const courses = lot.courses ?? [];
  const asking = askingStreet.value;
  const tapped = asking ? chosenSide.value : null;
  useEffect(() => {
    if (tapped === null) return;
    askingStreet.value = false;
    takeStreet(lot, tapped);
  }, [tapped]);
  const front = courses.findIndex((course) => course.kind === 'front');
  const told = courses.some((course) => (course.kind ?? 'unspecified') !== 'unspecified');
  return (
    <div class="street" data-entry="line-kinds" data-asking={asking ? '' : undefined}>
      <div class="field">
        <label for="street-side">{phrase('Which side lies on the street?')}</label>
        <select
          id="street-side"
          value={front < 0 ? '' : String(front)}
          onChange={(event) => {
            const course = Number(event.currentTarget.value);
            if (event.currentTarget.value === '') return;
            askingStreet.value = false;
            takeStreet(lot, course);
          }}
        >
          <option value="">{phrase('Choose, or pick it on the plan')}</option>
          {courses.map((course, index) => (
            <option key={index} value={index}>
              {index + 1}: {nameOf(course)}
            </option>
          ))}
        </select>
      </div>
      <div class="buttons">
        <button type="button" aria-pressed={asking} onClick={() => startAsking(!asking)}>
          {asking ? phrase('Pick the side now') : phrase('Pick it on the plan')}
        </button>
        {told && (
          <button type="button" onClick={() => replaceAll(lot)}>
            {phrase('Reset all line kinds')}
          </button>
        )}
      </div>
      <p class="field-hint">
        {phrase('The kinds of the other sides are proposed from it. What you have set stays, unless you have all kinds proposed anew.')}
      </p>
    </div>
  );
}

/** Has the next tap on the plan answer; a side chosen before does not count. */
export function startAsking(on: boolean): void {
  if (on) chosenSide.value = null;
  askingStreet.value = on;
}

/** One side lies on the street: it is the front, and what is not told of the others is proposed. */
function takeStreet(lot: LotRecord, front: number): void {
  const kinds = ask((p) => p.kinds_from_street(front, false), []);
  if (useKinds(lot, kinds)) say(phrase('Side {number} lies on the street. Check the kinds of the others: those that were set already stay.', { number: front + 1 }));
}

function replaceAll(lot: LotRecord): void {
  const front = (lot.courses ?? []).findIndex((course) => course.kind === 'front');
  const kinds = ask((p) => p.kinds_from_street(front < 0 ? undefined : front, true), []);
  if (useKinds(lot, kinds)) say(phrase('All line kinds were reset: check them.'));
}

function useKinds(lot: LotRecord, kinds: Course['kind'][]): boolean {
  const courses = (lot.courses ?? []).map((course, index) => ({ ...course, kind: kinds[index] ?? 'unspecified' }));
  return editOrTell({ 'set-lot': { ...lot, courses } }, phrase('The kinds were not taken.'));
}

function nameOf(course: Course): string {
  return course.label || runOf(course.shape);
}
