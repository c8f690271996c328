// In a step: what the company's book has for it, and a way to keep there what was entered here.
import { useEffect } from 'preact/hooks';
import type { BookKind } from '../core/types.ts';
import { Fold } from '../fields/Fold.tsx';
import { sheet } from '../state/store.ts';
import { english, heard, phrase, type English } from '../words/words.ts';
import { book, cards, keepFromJob, loadBook, shelf, takeEntry } from './shelf.ts';

const KEEP: Partial<Record<BookKind, English>> = {
  rules: english('Keep these rules in the book'),
  rates: english('Keep these rates in the book'),
  works: english('Keep this way of building in the book'),
  shell: english('Keep this shell in the book'),
  deck: english('Keep this deck in the book'),
  truck: english('Keep this truck in the book'),
};

export function FromBook({ kinds }: { kinds: BookKind[] }) {
  useEffect(() => void (shelf.value === 'unread' && loadBook()), []);
  const own = book.value;
  const some = cards.value.filter((it) => kinds.includes(it.kind));
  return (
    <Fold class="part from-book" head={`${phrase('From the company’s book')}${some.length > 0 ? ` (${some.length})` : ''}`}>
      {() => (
        <div class="part-body">
          {some.length === 0 && <p class="field-hint">{phrase('The book has nothing for this yet.')}</p>}
          <ul class="cards">
            {own &&
              some.map((it) => (
                <li key={it.id} class="entry">
                  <span class="entry-head">
                    <strong>{it.name}</strong>
                    <span class="entry-line">{heard(it.line)}</span>
                    {it.stale && <b class="mark-stale">{phrase('Prices older than a year')}</b>}
                  </span>
                  <button type="button" aria-label={phrase('Use {name} in this job', { name: it.name })} onClick={() => takeEntry(own, it)}>
                    {phrase('Use')}
                  </button>
                </li>
              ))}
          </ul>
          <div class="buttons">
            {kinds.map((kind) => (
              <button key={kind} type="button" onClick={() => void keepFromJob(kind)}>
                {phrase(KEEP[kind] ?? english('Keep it in the book'))}
              </button>
            ))}
            <button type="button" onClick={() => (sheet.value = 'book')}>
              {phrase('Open the book')}
            </button>
          </div>
        </div>
      )}
    </Fold>
  );
}
