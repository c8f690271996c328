// The company's book on this device: read when first wanted, changed as a whole, kept at once. Another tab's change is
// never written over: whoever comes second sees it and does it again.
import { computed, signal } from '@preact/signals';
import { ask, aside } from '../core/planner.ts';
import type { Book, BookContent, BookEntry, BookKind, EntryCard, Finding } from '../core/types.ts';
import { fileName } from '../job/files.ts';
import { download } from '../job/download.ts';
import { store } from '../jobs/list.ts';
import { newId } from '../jobs/model.ts';
import { editOrTell } from '../state/actions.ts';
import { say } from '../state/refresh.ts';
import { display, site, trouble } from '../state/store.ts';
import { count, phrase } from '../words/words.ts';
import { copied, kindOf, nextEdition, today, withEntry, withoutEntry } from './pages.ts';

/** The firm's own book; `null` where it has none yet. */
export const book = signal<Book | null>(null);
/** How the book stands on this device. */
export const shelf = signal<'unread' | 'ready' | 'writing' | 'unkept' | 'unreadable'>('unread');
/** The book before its last change here, to be had back; `undefined` where nothing was changed. */
export const before = signal<Book | null | undefined>(undefined);
/** The entry that is open in the list. */
export const openEntry = signal<string | null>(null);

/** What comes with the planner. */
export const examples = computed<Book | null>(() => (display.value ? ask((p) => p.example_book(), null) : null));

const cardsOf = (it: Book | null): EntryCard[] => (it && display.value ? ask((p) => p.book_cards(it, today()), []) : []);
export const cards = computed(() => cardsOf(book.value));
export const exampleCards = computed(() => cardsOf(examples.value));

const read = (text: string): { book: Book | null; findings: Finding[] } =>
  ask((p) => p.read_book(text), { book: null, findings: [] });

/** Reads the book as this device has it now. */
export async function loadBook(): Promise<void> {
  try {
    const text = await store.book();
    if (text === undefined) {
      if (shelf.value === 'unread') shelf.value = 'ready';
      return;
    }
    const { book: kept, findings } = read(text);
    if (kept) {
      if (kept.edition !== book.peek()?.edition) before.value = undefined;
      book.value = kept;
      shelf.value = 'ready';
    } else {
      shelf.value = 'unreadable';
      trouble.value = { title: phrase('The company’s book on this device cannot be read. It stays as it is.'), findings };
    }
  } catch (error) {
    console.warn('the book cannot be read from this device', error);
    shelf.value = 'unkept';
  }
}

/** Puts another state of the book in place of the present one. False where it was refused; the findings are shown. */
async function put(next: Book, was: Book | null): Promise<boolean> {
  const checked = read(JSON.stringify(next));
  if (!checked.book) {
    trouble.value = { title: phrase('The book was not changed.'), findings: checked.findings };
    return false;
  }
  book.value = checked.book;
  before.value = was;
  shelf.value = 'writing';
  try {
    if (await store.keepBook(JSON.stringify(checked.book), was?.edition ?? 0)) {
      shelf.value = 'ready';
      return true;
    }
    shelf.value = 'unread';
    say(phrase('Another tab has changed the book meanwhile. It is shown as it is now: do it once more.'), 'bad');
    before.value = undefined;
    book.value = null;
    await loadBook();
    return false;
  } catch (error) {
    console.warn('the book cannot be kept on this device', error);
    shelf.value = 'unkept';
    return true;
  }
}

/** Changes the book; where there is none yet, it begins with this. */
export function change(does: (now: Book) => Book): Promise<boolean> {
  const was = book.peek();
  const now = was ?? emptyBook();
  return now ? put(nextEdition(does(now), today()), was) : Promise.resolve(false);
}

function emptyBook(): Book | undefined {
  const like = examples.peek();
  return like ? { ...like, name: phrase('Our company'), edition: 0, entries: [] } : undefined;
}

/** Takes the last change back; the edition goes on counting. */
export async function undoChange(): Promise<void> {
  const [was, now] = [before.peek(), book.peek()];
  if (was === undefined || !now) return;
  const back = was ?? { ...now, entries: [] };
  if (await put(nextEdition({ ...back, edition: now.edition }, today()), now)) before.value = undefined;
}

export function putEntry(entry: BookEntry): Promise<boolean> {
  const single = cards.peek().find((it) => it.id === entry.id)?.single;
  return change((now) => withEntry(now, entry, single));
}
export const removeEntry = (id: string): Promise<boolean> => change((now) => withoutEntry(now, id));

/** Puts a copy into the firm's book, and opens it. */
export async function copyEntry(entry: BookEntry): Promise<void> {
  const copy = copied(entry, newId());
  if (await putEntry(copy)) openEntry.value = copy.id;
}

/** Keeps what the open job has of a kind as a new entry, and opens it to be named. */
export async function keepFromJob(kind: BookKind): Promise<void> {
  const content = contentOf(kind);
  if (!content) return;
  const id = newId();
  const name = 'shell' in content ? content.shell.shell.name : phrase('From {job}', { job: site.peek()?.name || phrase('a job') });
  if (await putEntry({ id, name, dated: today(), content })) {
    openEntry.value = id;
    say(phrase('Kept in the company’s book. Say where it is from.'), 'good');
  }
}

/** What the open job has of a kind; `undefined` where it has none. */
export const contentOf = (kind: BookKind, like?: BookContent): BookContent | undefined =>
  ask((p) => p.content_for_book(kind, like), undefined);

/** Puts what the open job has in place of an entry's content; its day is today. */
export async function updateFromJob(entry: BookEntry): Promise<void> {
  const content = contentOf(kindOf(entry), entry.content);
  if (!content) return say(phrase('This job has nothing of that kind.'), 'bad');
  if (await putEntry({ ...entry, dated: today(), content })) say(phrase('{name} is in the book as this job has it.', { name: entry.name }), 'good');
}

/** An empty lot as the firm begins a job. */
export interface EmptyLot {
  text: string;
  /** The names of what it has from the book. */
  begun: string[];
  /** Why it has nothing from there although the book says so. */
  refused: Finding[];
}

export async function emptyLot(): Promise<EmptyLot> {
  if (shelf.peek() === 'unread') await loadBook();
  const from = book.peek();
  return aside(
    (p): EmptyLot => {
      const { names, refused } = from ? p.begin_with(from, today()) : { names: [], refused: [] };
      return { text: p.save(), begun: names, refused };
    },
    { text: '', begun: [], refused: [] },
  );
}

/** Takes an entry over into the open job, in one step that can be undone. */
export function takeEntry(from: Book, { id, name }: { id: string; name: string }): void {
  const entry = from.entries.find((it) => it.id === id);
  if (!entry) return say(phrase('The book has this entry no more.'), 'bad');
  const take = { book: from.name, edition: from.edition, on: today(), entry };
  if (!editOrTell({ take }, phrase('{name} was not taken over.', { name }))) return;
  const { content } = entry;
  const own = 'rules' in content ? (site.value?.rules.length ?? 0) - (content.rules.rules?.length ?? 0) : 0;
  const stays = own > 0 ? ` ${count(own, 'Of this job’s own rules {n} stays.', 'Of this job’s own rules {n} stay.')}` : '';
  say(`${phrase('{name} was taken over from the book.', { name })}${stays}`, 'good');
}

/** Whether a text is a book; it need not be whole. */
export const isBook = (text: string): boolean => /^\s*\{\s*"format"\s*:\s*"batterboard-book"/.test(text.slice(0, 400));

/** Opens a book's file in place of the present book, which can be had back. */
export async function openBook(text: string, called: string): Promise<void> {
  const { book: opened, findings } = read(text);
  if (!opened) {
    trouble.value = { title: phrase('{name} was not opened. Your book is as it was.', { name: called }), findings };
    return;
  }
  if (shelf.value === 'unread') await loadBook();
  const was = book.peek();
  const edition = Math.max(opened.edition, (was?.edition ?? 0) + 1);
  if (await put({ ...opened, edition }, was)) say(phrase('The book of {firm} is on this device now.', { firm: opened.name }), 'good');
}

/** Saves the book to a file. */
export function saveBook(): void {
  const now = book.peek();
  const text = now && ask((p) => p.write_book(now), undefined);
  if (!now || !text) return;
  const name = `${fileName(now.name)}-book.json`;
  download(text, name, 'application/json');
  say(phrase('Saved as {name}', { name }), 'good');
}
