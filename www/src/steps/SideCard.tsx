// One side of the lot: its kind at a tap, and behind it how it runs, what it is called and what marks its corner.
import { useEffect, useRef } from 'preact/hooks';
import { LINE_KINDS } from '../core/lists.ts';
import type { Course, LineKind, Monument } from '../core/types.ts';
import { plain } from '../fields/Choice.tsx';
import { TextField } from '../fields/TextField.tsx';
import { chosenSide, dim, light } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';
import { CourseRun, runOf } from './CourseRun.tsx';
import { MonumentFields } from './MonumentFields.tsx';

export interface SideActions {
  change: (course: Course) => void;
  insertBehind: () => void;
  takeOut: () => void;
  move: (by: -1 | 1) => void;
  /** The description begins with this side. */
  beginHere: (() => void) | undefined;
}

interface Props {
  course: Course;
  index: number;
  count: number;
  actions: SideActions;
}

export function SideCard({ course, index, count, actions }: Props) {
  const card = useRef<HTMLLIElement>(null);
  const chosen = chosenSide.value === index;
  useEffect(() => {
    if (chosen) card.current?.scrollIntoView({ block: 'nearest' });
  }, [chosen]);
  const lit = { side: index };
  return (
    <li
      ref={card}
      class="card side"
      data-chosen={chosen ? '' : undefined}
      onFocusIn={() => light(lit)}
      onFocusOut={() => dim(lit)}
      onPointerEnter={() => light(lit)}
      onPointerLeave={() => dim(lit)}
    >
      <details
        open={chosen}
        onToggle={(event) => {
          const open = event.currentTarget.open;
          if (open) chosenSide.value = index;
          else if (chosenSide.value === index) chosenSide.value = null;
        }}
      >
        <summary>
          <span class="side-head">
            <span class="side-number">{index + 1}</span>
            <span>
              <b>{phrase(SHORT[course.kind ?? 'unspecified'])}</b>
              {course.label && `, ${course.label}`}
              <br />
              {runOf(course.shape)}
            </span>
          </span>
        </summary>
        <Kinds
          index={index}
          kind={course.kind ?? 'unspecified'}
          choose={(kind) => actions.change({ ...course, kind })}
        />
        <CourseRun shape={course.shape} put={(shape) => actions.change({ ...course, shape })} />
        <TextField label={phrase('Called')} value={course.label ?? ''} commit={(label) => actions.change({ ...course, label })} />
        <MonumentFields monument={course.monument} put={(monument) => actions.change(marked(course, monument))} />
        <div class="buttons">
          <button type="button" onClick={actions.insertBehind}>
            {phrase('Insert a side after')}
          </button>
          <button type="button" disabled={index === 0} onClick={() => actions.move(-1)}>
            {phrase('Move up')}
          </button>
          <button type="button" disabled={index === count - 1} onClick={() => actions.move(1)}>
            {phrase('Move down')}
          </button>
          {index > 0 && actions.beginHere && (
            <button type="button" onClick={actions.beginHere}>
              {phrase('Begin the description here')}
            </button>
          )}
          <button type="button" onClick={actions.takeOut}>
            {phrase('Remove this side')}
          </button>
        </div>
      </details>
    </li>
  );
}

/** The same side with another mark at its corner, or none. */
function marked(course: Course, monument: Monument | undefined): Course {
  const { monument: _, ...rest } = course;
  return monument ? { ...rest, monument } : rest;
}

const SHORT: Record<LineKind, English> = {
  front: english('Front'),
  side: english('Side'),
  rear: english('Rear'),
  'street-side': english('Street side'),
  shared: english('Shared'),
  unspecified: english('Kind not entered'),
};

/** The kinds as buttons: one tap changes it. */
function Kinds({ index, kind, choose }: { index: number; kind: LineKind; choose: (kind: LineKind) => void }) {
  return (
    <div class="kinds" role="group" aria-label={phrase('Kind of side {number}', { number: index + 1 })}>
      {LINE_KINDS.map((it) => (
        <button
          type="button"
          key={it}
          class="kind"
          aria-pressed={it === kind}
          title={plain(it)}
          onClick={() => it !== kind && choose(it)}
        >
          {phrase(SHORT[it])}
        </button>
      ))}
    </div>
  );
}
