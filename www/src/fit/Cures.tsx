// What would free a shell that stands too close: one change each, done by one tap.
import { useEffect, useState } from 'preact/hooks';
import type { CureCards } from '../paper/messages.ts';
import { ask } from '../paper/press.ts';
import { editOrTell } from '../state/actions.ts';
import { bareText } from '../state/document.ts';
import { gesturing, ledger } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import './fit.css';

/** After a change it is asked again once it has settled, milliseconds. */
const SETTLED = 300;

export function Cures() {
  const [found, tell] = useState<CureCards | 'failed' | null>(null);
  const revision = ledger.value?.revision;
  const busy = gesturing.value;
  useEffect(() => {
    if (busy) return;
    let wanted = true;
    const timer = setTimeout(() => {
      ask('cures', { site: bareText() }).then(
        (it) => wanted && tell(it),
        () => wanted && tell('failed'),
      );
    }, SETTLED);
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [revision, busy]);
  if (found === null) return <p aria-live="polite">{phrase('Looking.')}</p>;
  if (found === 'failed') return <p>{phrase('What would free it could not be worked out.')}</p>;
  if (found.short.length === 0) return <p>{phrase('What goes with the shell keeps every distance where it stands.')}</p>;
  return (
    <>
      <ul class="cure-short" aria-label={phrase('What binds here')}>
        {found.short.map((it) => (
          <li key={it.name}>
            {phrase('{rule}: {by} short', { rule: heard(it.name), by: it.by })}
          </li>
        ))}
      </ul>
      {found.nothing_left && <p>{heard(found.nothing_left)}</p>}
      <ul class="cures" aria-label={phrase('What would free it')}>
        {found.cures.map(({ words, placement }) => (
          <li key={words}>
            {placement ? (
              <button type="button" onClick={() => editOrTell({ 'set-placement': placement }, phrase('The shell was not changed.'))}>
                {heard(words)}
              </button>
            ) : (
              heard(words)
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
