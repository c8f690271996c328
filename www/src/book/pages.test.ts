import { expect, test } from 'vitest';
import type { Book, BookEntry } from '../core/types.ts';
import { copied, dayOf, kindOf, linesOf, nextEdition, withEntry, withoutEntry } from './pages.ts';

const entry = (id: string, source = ''): BookEntry => ({
  id,
  name: `Entry ${id}`,
  source,
  content: { 'title-block': { lines: [id] } },
});

const book: Book = { format: 'batterboard-book', version: 1, name: 'Ours', edition: 4, entries: [entry('a'), entry('b')] };

test('an entry keeps its place when it is changed, and a new one comes last', () => {
  const changed = withEntry(book, { ...entry('a'), name: 'Other' });
  expect(changed.entries.map((it) => it.name)).toEqual(['Other', 'Entry b']);
  expect(withEntry(book, entry('c')).entries.map((it) => it.id)).toEqual(['a', 'b', 'c']);
  expect(withoutEntry(book, 'a').entries.map((it) => it.id)).toEqual(['b']);
  expect(book.entries.map((it) => it.name)).toEqual(['Entry a', 'Entry b']);
  expect(nextEdition(book, '2026-03-31')).toMatchObject({ edition: 5, changed: '2026-03-31' });
});

test('whoever copies an example answers for it', () => {
  expect(copied(entry('a', 'Example only, invented'), 'x')).toMatchObject({ id: 'x', name: 'Entry a', source: '' });
  expect(copied(entry('a', 'Supplier'), 'x')).toMatchObject({ id: 'x', name: 'Entry a, copy', source: 'Supplier' });
});

test('days, kinds and lines are read off', () => {
  expect(dayOf(new Date(2026, 2, 5, 23, 59))).toBe('2026-03-05');
  expect(kindOf(entry('a'))).toBe('title-block');
  expect(linesOf(' one \n\n two')).toEqual(['one', 'two']);
});
