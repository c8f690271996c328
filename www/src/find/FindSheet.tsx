// Find anything by its name, and go there or do it.
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { Sheet } from '../job/Sheet.tsx';
import { sheet } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { matching, type Thing } from './matching.ts';
import { everything } from './things.ts';

/** So many are listed at once. */
const MOST = 60;

const close = (): void => void (sheet.value = null);

function take(thing: Thing): void {
  close();
  thing.does();
}

export function FindSheet() {
  const things = useMemo(everything, []);
  const [typed, setTyped] = useState('');
  const [at, setAt] = useState(0);
  const input = useRef<HTMLInputElement>(null);
  const found = matching(typed, things).slice(0, MOST);
  useLayoutEffect(() => input.current?.focus(), []);
  useEffect(() => document.getElementById(`found-${at}`)?.scrollIntoView({ block: 'nearest' }), [at]);
  const key = (event: KeyboardEvent) => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by !== undefined && found.length > 0) {
      event.preventDefault();
      setAt((at + by + found.length) % found.length);
    }
    const thing = found[at];
    if (event.key === 'Enter' && thing) {
      event.preventDefault();
      take(thing);
    }
  };
  return (
    <Sheet label={phrase('Find anything')} class="find" close={close}>
      <div class="field">
        <label for="find">{phrase('Find an action, a thing on the lot, a figure or a clearance')}</label>
        <input
          ref={input}
          id="find"
          type="text"
          autocomplete="off"
          spellcheck={false}
          role="combobox"
          aria-expanded="true"
          aria-controls="found"
          aria-activedescendant={found.length > 0 ? `found-${at}` : undefined}
          value={typed}
          onInput={(event) => {
            setTyped(event.currentTarget.value);
            setAt(0);
          }}
          onKeyDown={key}
        />
      </div>
      <ul id="found" class="found" role="listbox" aria-label={phrase('Found')}>
        {found.map((thing, index) => (
          <li
            key={`${thing.name} ${thing.aside}`}
            id={`found-${index}`}
            role="option"
            aria-selected={index === at}
            onClick={() => take(thing)}
            onPointerMove={() => setAt(index)}
          >
            <span>{thing.name}</span>
            <span class="found-aside">{thing.aside}</span>
          </li>
        ))}
      </ul>
      {found.length === 0 && <p class="nothing-yet">{phrase('Nothing here has that name. Try another word of it.')}</p>}
      <div class="buttons">
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </Sheet>
  );
}
