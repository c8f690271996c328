// The company's book: what the firm types once. What this job took from it stands first, then every entry by its kind.
import { useEffect, useRef, useState } from 'preact/hooks';
import type { BookContent, BookEntry, BookKind, EntryCard } from '../core/types.ts';
import { FileInput } from '../fields/FileInput.tsx';
import { Fold } from '../fields/Fold.tsx';
import { TextField } from '../fields/TextField.tsx';
import { openPicked } from '../job/files.ts';
import { Sheet } from '../job/Sheet.tsx';
import { sheet } from '../state/store.ts';
import { EntryRow } from './EntryRow.tsx';
import { KINDS, today } from './pages.ts';
import { before, book, cards, change, contentOf, exampleCards, examples, keepFromJob, loadBook, openEntry, putEntry, saveBook, shelf, undoChange } from './shelf.ts';
import { TookPart } from './TookPart.tsx';
import { newId } from '../jobs/model.ts';
import { english, heard, phrase, type English } from '../words/words.ts';

export function BookSheet() {
  const [words, setWords] = useState('');
  const picker = useRef<HTMLInputElement>(null);
  useEffect(() => void loadBook(), []);
  const own = book.value;
  const close = () => (sheet.value = null);
  return (
    <Sheet label={phrase('Company’s book')} class="book" close={close}>
      <header class="jobs-head">
        <h2>{phrase('The company’s book')}</h2>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </header>
      <p>
        {phrase('What you type once and use on every job. A job keeps what it took as it was then; nothing in it changes until you take something over again.')}
      </p>
      {shelf.value === 'unkept' && (
        <p class="book-word" role="alert">
          {phrase('The book cannot be kept on this device. Save it to a file before you leave.')}
        </p>
      )}
      <TookPart />
      {own && (
        <div class="book-name">
          <TextField label={phrase('Name of the firm')} value={own.name} commit={(name) => void change((now) => ({ ...now, name: name || now.name }))} />
          <p class="book-edition">
            {own.changed
            ? phrase('Edition {edition}, changed {changed}', { edition: own.edition, changed: own.changed })
            : phrase('Edition {edition}', { edition: own.edition })}
          {shelf.value === 'ready' && phrase(', kept on this device')}
          </p>
        </div>
      )}
      <div role="status" class="jobs-deleted" data-shown={before.value !== undefined}>
        {before.value !== undefined && (
          <>
            <span>{phrase('The book was changed.')}</span>
            <button type="button" onClick={() => void undoChange()}>
              {phrase('Undo in the book')}
            </button>
          </>
        )}
      </div>
      {!own && shelf.value !== 'unreadable' && (
        <p class="jobs-none">
          {phrase('There is nothing in it yet. Keep something of this job in it, copy an example into it, or open the file of a book.')}
        </p>
      )}
      <KeepPart />
      {cards.value.length > FINDABLE && (
        <input
          type="search"
          autocomplete="off"
          aria-label={phrase('Find in the book')}
          placeholder={phrase('Find in the book')}
          value={words}
          onInput={(event) => setWords(event.currentTarget.value)}
        />
      )}
      <Entries cards={matching(cards.value, words)} />
      <Fold class="part" head={phrase('Examples that come with the planner')} start={!own}>
        {() => (
          <div class="part-body">
            <p class="field-hint">{phrase('All invented, or common practice with no source. Use one to see what an entry does; put in your own.')}</p>
            <Entries cards={exampleCards.value} example />
          </div>
        )}
      </Fold>
      <FileInput picker={picker} take={openPicked} />
      <div class="buttons">
        <button type="button" onClick={() => picker.current?.click()}>
          {phrase('Open a book’s file')}
        </button>
        <button type="button" disabled={!own} onClick={saveBook}>
          {phrase('Save the book to a file')}
        </button>
      </div>
      <p class="foot-words">
        {phrase('The book is kept in this browser on this device and nowhere else. Rules in it are what you typed: the local authority’s own text governs. Prices are your suppliers’; those older than a year are marked.')}
      </p>
    </Sheet>
  );
}

/** From so many entries on they can be looked for. */
const FINDABLE = 8;

function matching(all: EntryCard[], words: string): EntryCard[] {
  const wanted = words.toLowerCase().split(/\s+/).filter((it) => it !== '');
  return all.filter((it) => {
    const text = `${it.name} ${it.kind_words} ${heard(it.kind_words)} ${it.line}`.toLowerCase();
    return wanted.every((word) => text.includes(word));
  });
}

function Entries({ cards: all, example = false }: { cards: EntryCard[]; example?: boolean }) {
  const from = example ? examples.value : book.value;
  if (!from) return null;
  return (
    <>
      {KINDS.map((kind) => {
        const some = all.filter((it) => it.kind === kind);
        if (some.length === 0) return null;
        return (
          <section key={kind} class="book-kind">
            <h3>{heard(some[0]?.heading ?? '')}</h3>
            <ul class="cards">
              {some.map((card) => {
                const entry = from.entries.find((it) => it.id === card.id);
                return entry && <EntryRow key={card.id} card={card} entry={entry} from={from} example={example} />;
              })}
            </ul>
          </section>
        );
      })}
    </>
  );
}

const KEEP: [BookKind, English][] = [
  ['shell', english('Its shell')],
  ['rules', english('Its rules')],
  ['rates', english('Its rates')],
  ['works', english('How it is built')],
  ['deck', english('Its deck')],
  ['truck', english('Its truck')],
];

/** What the open job has, to be kept as a new entry. */
function KeepPart() {
  if (shelf.value === 'unreadable') return null;
  return (
    <Fold class="part" head={phrase('Keep something of this job in the book')}>
      {() => (
        <div class="part-body">
          <div class="buttons">
            {KEEP.map(([kind, label]) => (
              <button key={kind} type="button" disabled={!contentOf(kind)} onClick={() => void keepFromJob(kind)}>
                {phrase(label)}
              </button>
            ))}
            <button type="button" onClick={() => void add(phrase('A machine'), { machine: { width: 1.8288, height: 2.4892, weight: 5000 } })}>
              {phrase('A new machine')}
            </button>
            <button type="button" onClick={() => void add(phrase('Title block'), { 'title-block': { lines: [] } })}>
              {phrase('A new title block')}
            </button>
          </div>
          <p class="field-hint">
            {phrase('Set it up in the job as you want it, then keep it here. Places on this lot, its soil and its groundwater stay with the job.')}
          </p>
        </div>
      )}
    </Fold>
  );
}

/** Puts a new entry into the book, and opens it to be filled in. */
async function add(name: string, content: BookContent): Promise<void> {
  const entry: BookEntry = { id: newId(), name, dated: today(), content };
  if (await putEntry(entry)) openEntry.value = entry.id;
}
