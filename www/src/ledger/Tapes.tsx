// Every tape that is kept, with its reading and what that rests on.
import type { TapeRow } from '../core/types.ts';
import { removeTape } from '../plan/tapes.ts';
import { dim, light } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';

export function Tapes({ tapes }: { tapes: TapeRow[] }) {
  if (tapes.length === 0) return null;
  return (
    <section class="tapes" aria-labelledby="tapes-head">
      <h3 id="tapes-head">{phrase('Tapes')}</h3>
      <ul>
        {tapes.map(({ from, to, distance, says }, index) => {
          const it = { tape: index };
          const ends = phrase('{from} to {to}', { from: heard(from), to: heard(to) });
          return (
            <li key={index} onPointerEnter={() => light(it)} onPointerLeave={() => dim(it)}>
              <span class="tape-ends">{ends}</span>
              <b>{distance?.text ?? phrase('waits')}</b>
              <button
                type="button"
                aria-label={phrase('Remove the tape {ends}', { ends })}
                onFocus={() => light(it)}
                onBlur={() => dim(it)}
                onClick={() => {
                  dim(it);
                  removeTape(index);
                }}
              >
                ×
              </button>
              <small>{says.map(heard).join(' ')}</small>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
