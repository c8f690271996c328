// One entry of the book: what it is in a line; opened, where it is from and what can be done with it.
import type { Book, BookEntry, EntryCard } from '../core/types.ts';
import { SmallShell } from '../steps/ShellCards.tsx';
import { heard, phrase } from '../words/words.ts';
import { EntryFields } from './EntryFields.tsx';
import { copyEntry, openEntry, removeEntry, takeEntry, updateFromJob } from './shelf.ts';

interface Props {
  card: EntryCard;
  entry: BookEntry;
  from: Book;
  example: boolean;
}

export function EntryRow({ card, entry, from, example }: Props) {
  const { id } = card;
  const name = example ? heard(card.name) : card.name;
  const open = openEntry.value === id;
  return (
    <li>
      <div class="entry" data-entry-id={id}>
        <button type="button" class="entry-head" aria-expanded={open} onClick={() => (openEntry.value = open ? null : id)}>
          {card.shell && <SmallShell card={card.shell} />}
          <span>
            <strong>{name}</strong>
            <span class="entry-line">{heard(card.line)}</span>
            <Marks card={card} entry={entry} />
          </span>
        </button>
        <button type="button" aria-label={phrase('Use {name} in this job', { name })} onClick={() => takeEntry(from, card)}>
          {phrase('Use')}
        </button>
      </div>
      {open && (
        <div class="entry-body">
          {!example && <EntryFields entry={entry} />}
          <div class="buttons">
            {!example && !('title-block' in entry.content || 'machine' in entry.content) && (
              <button type="button" onClick={() => void updateFromJob(entry)}>
                {phrase('Set it to what this job has')}
              </button>
            )}
            <button type="button" onClick={() => void copyEntry(entry)}>
              {example ? phrase('Copy into our book') : phrase('Copy')}
            </button>
            {!example && (
              <button type="button" onClick={() => void removeEntry(id)}>
                {phrase('Remove from the book')}
              </button>
            )}
          </div>
        </div>
      )}
    </li>
  );
}

function Marks({ card, entry }: { card: EntryCard; entry: BookEntry }) {
  return (
    <span class="entry-from">
      {card.example && <b class="mark-example">{phrase('Example')}</b>}
      {card.stale && <b class="mark-stale">{entry.dated ? phrase('Prices older than a year') : phrase('Prices of no day')}</b>}
      {!card.example && entry.source}
      {entry.dated ? `${!card.example && entry.source ? ', ' : ''}${entry.dated}` : ''}
    </span>
  );
}
