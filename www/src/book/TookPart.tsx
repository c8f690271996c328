// What the open job took from the book: since when, what has changed there, and what the job has otherwise.
import { ask } from '../core/planner.ts';
import type { Change, TakenStanding } from '../core/types.ts';
import { ChangeList } from '../fields/ChangeList.tsx';
import { ledger } from '../state/store.ts';
import { phrase, woven } from '../words/words.ts';
import { book, examples, takeEntry, updateFromJob } from './shelf.ts';

/** How everything stands that the job took, held against the firm's book and the examples. */
export function tookStandings(): TakenStanding[] {
  const [own, shown] = [book.value, examples.value];
  // It is worked out anew after every edit.
  if (!shown || ledger.value === null) return [];
  const all = { ...(own ?? shown), entries: [...(own?.entries ?? []), ...shown.entries] };
  return ask((p) => p.book_standings(all), []);
}

export function TookPart() {
  const all = tookStandings();
  if (all.length === 0) return null;
  return (
    <section class="took">
      <h3>{phrase('This job took')}</h3>
      <ul class="cards">
        {all.map((it) => (
          <li key={it.id} class="took-one" data-took={it.kind}>
            <p>
              {woven('{name}, on {on} from edition {edition} of {book}', { name: <strong>{it.name}</strong>, on: it.on, edition: it.edition, book: it.book })}
            </p>
            <Since it={it} />
            <Changes head={phrase('This job has otherwise')} changes={it.own} />
            <Does it={it} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Since({ it: { since } }: { it: TakenStanding }) {
  if (since === 'same') return <p class="field-hint">{phrase('The book has it as it was taken.')}</p>;
  if (since === 'gone') return <p class="field-hint">{phrase('The book on this device does not have it.')}</p>;
  return <Changes head={phrase('Changed in the book since')} changes={since.changed} />;
}

function Changes({ head, changes }: { head: string; changes: Change[] }) {
  if (changes.length === 0) return null;
  return (
    <>
      <p>{head}:</p>
      <ChangeList changes={changes} />
    </>
  );
}

function Does({ it }: { it: TakenStanding }) {
  const own = book.value?.entries.find((entry) => entry.id === it.id);
  const from = own ? book.value : examples.value;
  const known = from?.entries.some((entry) => entry.id === it.id);
  if (!from || !known || (it.since === 'same' && it.own.length === 0)) return null;
  return (
    <div class="buttons">
      <button type="button" onClick={() => takeEntry(from, it)}>
        {phrase('Take it over as the book has it')}
      </button>
      {own && it.own.length > 0 && (
        <button type="button" onClick={() => void updateFromJob(own)}>
          {phrase('Put it into the book as this job has it')}
        </button>
      )}
    </div>
  );
}
