// Names of copies, what the list shows, and times in words.
import { expect, test } from 'vitest';
import { copyName, digestOf, newId, renamed, shownCards, when, type JobCard } from './model.ts';

const card = (name: string, change: Partial<JobCard> = {}): JobCard => ({
  id: name,
  name,
  place: '',
  status: 'sketched',
  archived: false,
  deleted: null,
  created: 0,
  changed: 0,
  revision: 1,
  untouched: false,
  figures: null,
  small: '',
  digest: '',
  ...change,
});

test('a copy is named after what it is a copy of, and like no other', () => {
  expect(copyName('Hillside', [])).toBe('Copy of Hillside');
  expect(copyName('Hillside', ['copy of hillside'])).toBe('Copy of Hillside 2');
  expect(copyName('Copy of Hillside', ['Copy of Hillside', 'Copy of Hillside 2'])).toBe('Copy of Hillside 3');
  expect(copyName('Copy of Hillside 2', ['Copy of Hillside', 'Copy of Hillside 2'])).toBe('Copy of Hillside 3');
  expect(copyName('Copy of copy of Hillside', [])).toBe('Copy of Hillside');
  expect(copyName('  ', [])).toBe('Copy of job');
});

test('a site file gets another name and stays the same otherwise; what is no site stays as it is', () => {
  const text = '{"format":"x","name":"A","lot":{"start":[0.1,2]}}';
  expect(renamed(text, (name) => `${name}B`)).toBe('{"format":"x","name":"AB","lot":{"start":[0.1,2]}}');
  for (const broken of ['', '[1]', 'null', '{"a"']) expect(renamed(broken, () => 'B')).toBe(broken);
});

test('the list finds by every word, the latest first, without what is put away or deleted', () => {
  const all = [
    card('Alder', { changed: 1, place: '12 Mill Lane', status: 'for-permit' }),
    card('Birch', { changed: 3 }),
    card('Cedar', { changed: 2, archived: true }),
    card('Dogwood', { changed: 9, deleted: 5 }),
    card('Elm', { changed: 9, untouched: true }),
  ];
  const names = (words: string, archived = false) => shownCards(all, { words, archived }).map((it) => it.name);
  expect(names('')).toEqual(['Birch', 'Alder']);
  expect(names('mill PERMIT')).toEqual(['Alder']);
  expect(names('mill birch')).toEqual([]);
  expect(names('', true)).toEqual(['Cedar']);
});

test('times are told by the day on which they are read', () => {
  const now = new Date(2026, 2, 3, 18, 30).getTime();
  expect(when(new Date(2026, 2, 3, 9, 5).getTime(), now)).toMatch(/^Today 9:05\sAM$/);
  expect(when(new Date(2026, 2, 2, 23, 59).getTime(), now)).toMatch(/^Yesterday 11:59\sPM$/);
  expect(when(new Date(2026, 1, 3, 9, 5).getTime(), now)).toMatch(/^Feb 3, 9:05\sAM$/);
  expect(when(new Date(2025, 1, 3, 9, 5).getTime(), now)).toMatch(/^Feb 3, 2025, 9:05\sAM$/);
});

test('ids differ, and so do digests of texts that differ', () => {
  expect(new Set(Array.from({ length: 200 }, newId)).size).toBe(200);
  const texts = ['', 'a', 'b', 'ab', 'ba', 'aab', 'aba'];
  expect(new Set(texts.map((it) => digestOf(it, ''))).size).toBe(texts.length);
  expect(digestOf('a', 'x')).not.toBe(digestOf('a', ''));
});
