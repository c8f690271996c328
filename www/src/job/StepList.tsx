// Every step that undo and redo know, newest first, below the arrows: a tap on one goes to the site as it stood after
// it.
import { useRef, useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import { goBack } from '../state/actions.ts';
import { ledger } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import { Menu } from './Menu.tsx';

/** Unfolds the list. */
export function openSteps(): void {
  document.querySelector<HTMLElement>('.steps > summary')?.click();
}

export function StepList() {
  const menu = useRef<HTMLDetailsElement>(null);
  const [open, setOpen] = useState(false);
  return (
    <Menu menu={menu} class="steps" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary aria-label={phrase('All steps')} title={phrase('All steps')} />
      {open && <List />}
    </Menu>
  );
}

function List() {
  // Its names alone do not tell one site from another.
  void ledger.value?.revision;
  const [undo, redo] = [false, true].map((again) => ask((p) => p.steps(again), [])) as [string[], string[]];
  const rows = [
    ...redo.map((name, i): [string, number] => [name, -1 - i]).reverse(),
    ...undo.map((name, i): [string, number] => [name, i]),
    [phrase('Before all of these'), undo.length] as [string, number],
  ];
  return (
    <ol aria-label={phrase('Steps, newest first')}>
      {rows.map(([name, back]) => (
        <li key={undo.length - back}>
          <button type="button" aria-current={back === 0 ? 'step' : undefined} data-undone={back < 0} onClick={() => goBack(back)}>
            {heard(name)}
          </button>
        </li>
      ))}
    </ol>
  );
}
