// The sides of the lot, one course of the deed after the other, with what they close to.
import { ask } from '../core/planner.ts';
import type { Course, LotRecord } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { edit, editOrTell, say } from '../state/actions.ts';
import { askingStreet, chosenSide, display } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import { Closing } from './Closing.tsx';
import { dropDraft, openDraft, put, putCourses } from './draft.ts';
import { NewLot } from './NewLot.tsx';
import { NextSide } from './NextSide.tsx';
import { SideCard, type SideActions } from './SideCard.tsx';
import { StreetPart } from './StreetPart.tsx';

const ANOTHER: Course = { kind: 'unspecified', shape: { line: { bearing: 0, distance: 10 } } };

export function Sides({ lot: inUse }: { lot: LotRecord }) {
  void display.value; // Figures are shown anew when the units change.
  const draft = openDraft();
  const lot = draft?.lot ?? inUse;
  const courses = lot.courses ?? [];
  const closing = ask((planner) => planner.closing(lot), null);
  const actions = (index: number): SideActions => ({
    change: (course) => putCourses(lot, courses.with(index, course)),
    insertBehind: () => {
      putCourses(lot, courses.toSpliced(index + 1, 0, ANOTHER));
      chosenSide.value = index + 1;
    },
    takeOut: () => {
      chosenSide.value = null;
      putCourses(lot, courses.toSpliced(index, 1));
    },
    move: (by) => {
      const moved = courses.toSpliced(index, 1).toSpliced(index + by, 0, courses[index] ?? ANOTHER);
      chosenSide.value = index + by;
      putCourses(lot, moved);
    },
    beginHere: draft ? undefined : () => beginAt(lot, index),
  });
  return (
    <>
      {!draft && courses.length > 0 && <StreetPart lot={lot} />}
      <ol class="cards" data-asking={askingStreet.value ? '' : undefined}>
        {courses.map((course, index) => (
          <SideCard key={index} course={course} index={index} count={courses.length} actions={actions(index)} />
        ))}
      </ol>
      <NextSide lot={lot} add={(more) => putCourses(lot, [...courses, ...more])} />
      {draft && (
        <div class="draft" role="status">
          <p class="caution">
            <strong>{phrase('Not in use yet.')}</strong> {draft.findings.map((it) => `${heard(it.message)} ${heard(it.remedy)}`).join(' ')} {phrase('The plan keeps the lot it has until the sides fit.')}
          </p>
          <div class="buttons">
            <button type="button" onClick={dropDraft}>
              {phrase('Go back to the lot in use')}
            </button>
          </div>
        </div>
      )}
      {closing && <Closing figures={closing} label={draft ? phrase('Closure of the sides typed') : phrase('Closure of the lot')} />}
      <Asked lot={inUse} />
      <details class="card">
        <summary>{phrase('Re-enter all courses')}</summary>
        <p class="field-hint">{phrase('The list is emptied. The lot in use stays on the plan until the new sides fit.')}</p>
        <button type="button" class="main" onClick={() => startAnew(inUse)}>
          {phrase('Empty the list')}
        </button>
      </details>
      <NewLot lot={inUse} />
      <p class="field-hint">
        {phrase('Take bearings and distances from the deed or the plat. This is a planning aid, not a survey: only a licensed surveyor can say where a line is.')}
      </p>
    </>
  );
}

/** What the lot is asked to be: how well it closes, what area is stated, whether it is balanced. */
function Asked({ lot }: { lot: LotRecord }) {
  const balanced = lot.balance !== undefined;
  function balance(): void {
    const { balance: _, ...rest } = lot;
    const next: LotRecord = balanced ? rest : { ...rest, balance: 'compass-rule' };
    editOrTell({ 'set-lot': next }, phrase('The lot was not balanced.'));
  }
  function unstated() {
    const { stated_area: _, ...rest } = lot;
    return edit({ 'set-lot': rest });
  }
  return (
    <>
      <div class="pair">
        <Figure
          label={phrase('Should close within')}
          measure="closing"
          value={lot.closing_ratio ?? 5000}
          commit={(closing_ratio) => edit({ 'set-lot': { ...lot, closing_ratio } })}
        />
        <Figure
          label={phrase('Area stated')}
          measure="land-area"
          value={lot.stated_area}
          placeholder={phrase('not stated')}
          commit={(stated_area) => edit({ 'set-lot': { ...lot, stated_area } })}
          clear={unstated}
        />
      </div>
      <div class="buttons">
        <button type="button" disabled={(lot.courses ?? []).length === 0} onClick={balance}>
          {balanced ? phrase('Remove the balance') : phrase('Balance by the compass rule')}
        </button>
      </div>
      <p class="field-hint">
        {balanced
          ? phrase('The corners of the lot are balanced; its courses are kept as described.')
          : phrase('Balancing moves the corners of the lot in use, and keeps its courses as described.')}{' '}
        {phrase('A surveyor decides whether a description may be balanced at all.')}
      </p>
    </>
  );
}

/** The description begins with another side; the lot stays where it is. */
function beginAt(lot: LotRecord, index: number): void {
  const [x, y] = ask((p) => p.corner(index), new Float64Array());
  if (x === undefined || y === undefined) return;
  const courses = lot.courses ?? [];
  const turned = [...courses.slice(index), ...courses.slice(0, index)];
  if (!editOrTell({ 'set-lot': { ...lot, start: [x, y], courses: turned } }, phrase('The beginning was not moved.'))) return;
  chosenSide.value = 0;
  say(phrase('The description now begins with this side. The lot lies where it was.'));
}

function startAnew(lot: LotRecord): void {
  const { stated_area: _, deed: __, balance: ___, ...rest } = lot;
  chosenSide.value = null;
  put({ ...rest, courses: [] });
  requestAnimationFrame(() => document.getElementById('next-side')?.focus());
}
