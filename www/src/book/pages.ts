// What can be done to a book as plain data. Pure.
import type { Book, BookEntry, BookKind, Day } from '../core/types.ts';
import { english, phrase, type English } from '../words/words.ts';

/** The kinds, in the order lists show them. */
export const KINDS = ['shell', 'rules', 'rates', 'works', 'deck', 'truck', 'machine', 'title-block'] as const satisfies readonly BookKind[];

/** What an entry of a kind is from. */
export const SOURCE: Record<BookKind, English> = {
  shell: english('Brochure and page'),
  rules: english('Who requires it: the code and its section'),
  rates: english('Supplier'),
  works: english('Who says so'),
  deck: english('Supplier or specification'),
  truck: english('Owner or data plate'),
  machine: english('Data plate or rental sheet'),
  'title-block': english('Who answers for it'),
};

export const kindOf = (entry: BookEntry): BookKind => KINDS.find((kind) => kind in entry.content) ?? 'title-block';

/** A day of the calendar here, `2026-03-31`. */
export function dayOf(date: Date): Day {
  const two = (it: number) => String(it).padStart(2, '0');
  return `${String(date.getFullYear()).padStart(4, '0')}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

export const today = (): Day => dayOf(new Date());

/** The book with an entry put in, in place of the one of its id or at the end. `single`: a job has one of its kind at
    most; where new jobs begin with this one, they do so with no other. */
export function withEntry(book: Book, entry: BookEntry, single = false): Book {
  const known = book.entries.some((it) => it.id === entry.id);
  const kind = kindOf(entry);
  const alone = entry.for_new_jobs === true && single;
  const others = book.entries.map((it) => (alone && kindOf(it) === kind ? { ...it, for_new_jobs: false } : it));
  const entries = known ? others.map((it) => (it.id === entry.id ? entry : it)) : [...others, entry];
  return { ...book, entries };
}

export const withoutEntry = (book: Book, id: string): Book => ({ ...book, entries: book.entries.filter((it) => it.id !== id) });

/** A copy under another id. Whoever copies an example answers for it: it is no example any more. */
export function copied(entry: BookEntry, id: string): BookEntry {
  const isExample = /^\s*example only/i.test(entry.source ?? '');
  const copy = { ...entry, id, for_new_jobs: false };
  return isExample ? { ...copy, source: '' } : { ...copy, name: phrase('{name}, copy', { name: entry.name }) };
}

export const nextEdition = (book: Book, day: Day): Book => ({ ...book, edition: book.edition + 1, changed: day });

/** The lines of a text that say something. */
export const linesOf = (text: string): string[] => text.split('\n').map((it) => it.trim()).filter((it) => it !== '');
