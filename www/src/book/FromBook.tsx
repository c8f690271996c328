// In a step: what the company's book has for it, and a way to keep there what was entered here.
import { useEffect } from 'preact/hooks';
import type { BookKind } from '../core/types.ts';
import { Fold } from '../fields/Fold.tsx';
import { sheet } from '../state/store.ts';
import { book, cards, keepFromJob, loadBook, shelf, takeEntry } from './shelf.ts';

const THESE: Partial<Record<BookKind, string>> = { rules: 'these rules', rates: 'these rates', works: 'this way of building', shell: 'this shell', deck: 'this deck', truck: 'this truck' };

export function FromBook({ kinds }: { kinds: BookKind[] }) {
  useEffect(() => void (shelf.value === 'unread' && loadBook()), []);
  const own = book.value;
  const some = cards.value.filter((it) => kinds.includes(it.kind));
  return (
    <Fold class="part from-book" head={`From the company’s book${some.length > 0 ? ` (${some.length})` : ''}`}>
      {() => (
        <div class="part-body">
          {some.length === 0 && <p class="field-hint">The book has nothing for this yet.</p>}
          <ul class="cards">
            {own &&
              some.map((it) => (
                <li key={it.id} class="entry">
                  <span class="entry-head">
                    <strong>{it.name}</strong>
                    <span class="entry-line">{it.line}</span>
                    {it.stale && <b class="mark-stale">Prices older than a year</b>}
                  </span>
                  <button type="button" aria-label={`Use ${it.name} in this job`} onClick={() => takeEntry(own, it)}>
                    Use
                  </button>
                </li>
              ))}
          </ul>
          <div class="buttons">
            {kinds.map((kind) => (
              <button key={kind} type="button" onClick={() => void keepFromJob(kind)}>
                Keep {THESE[kind]} in the book
              </button>
            ))}
            <button type="button" onClick={() => (sheet.value = 'book')}>
              Open the book
            </button>
          </div>
        </div>
      )}
    </Fold>
  );
}
