// What the device keeps, on a database in memory: nothing of version 1 is lost, nobody overwrites what they have not
// seen, pictures are kept once, and what cannot be written leaves everything as it was.
import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { beforeEach, expect, test, vi } from 'vitest';
import { JobsStore, type Writing } from './store.ts';
import { EVERY } from './thinning.ts';
import { kindOf } from './trouble.ts';

let name = '';
let number = 0;
let store: JobsStore;

beforeEach(() => {
  number += 1;
  name = `jobs-${number}`;
  store = new JobsStore(name);
});

const site = (called: string, more = ''): string => JSON.stringify({ name: called, more });

const writing = (change: Partial<Writing> = {}): Writing => ({
  id: 'a',
  from: 0,
  text: site('Alder'),
  history: 'undo',
  picture: '',
  untouched: false,
  figures: null,
  now: 1000,
  ...change,
});

test('the one document of version 1 becomes the first job', async () => {
  const old = await openDB(name, 1, { upgrade: (db) => void db.createObjectStore('documents') });
  await old.put('documents', site('Old work'), 'open-work');
  await old.put('documents', 'AAAA', 'open-picture');
  old.close();
  const [card] = await store.cards();
  expect(card).toMatchObject({ name: 'Old work', revision: 1, untouched: false, archived: false, deleted: null });
  const id = card?.id ?? '';
  expect(await store.last()).toBe(id);
  expect((await store.load(id))?.work).toEqual({ text: site('Old work'), picture: 'AAAA', history: '' });
  const now = await openDB(name);
  expect([...now.objectStoreNames]).not.toContain('documents');
  now.close();
  // And goes on from there.
  expect(await store.write(writing({ id, from: 1 }))).toMatchObject({ how: 'kept', card: { revision: 2 } });
});

test('a version 1 in which nothing was kept becomes an empty list', async () => {
  const old = await openDB(name, 1, { upgrade: (db) => void db.createObjectStore('documents') });
  old.close();
  expect(await store.cards()).toEqual([]);
  expect(await store.last()).toBeUndefined();
});

test('a job is written, and written again by who has seen the last of it', async () => {
  expect(await store.write(writing())).toMatchObject({ how: 'kept', card: { revision: 1 } });
  expect(await store.write(writing({ from: 1, text: site('Birch'), now: 2000 }))).toMatchObject({ how: 'kept', card: { revision: 2 } });
  // Somebody who has seen the first state only.
  expect(await store.write(writing({ from: 1, text: site('Cedar') }))).toEqual({ how: 'conflict' });
  expect(await store.write(writing({ text: site('Cedar') }))).toEqual({ how: 'conflict' });
  const found = await store.load('a');
  expect(found?.card).toMatchObject({ name: 'Birch', revision: 2, created: 1000, changed: 2000 });
  expect(found?.work.text).toBe(site('Birch'));
  expect(await store.last()).toBe('a');
});

test('what the list knows is not lost to a write, and changes no revision', async () => {
  await store.write(writing());
  await store.change('a', { place: '12 Mill Lane', status: 'dug', archived: true });
  await store.change('nobody', { place: 'nowhere' });
  expect(await store.write(writing({ from: 1, text: site('Birch') }))).toMatchObject({ how: 'kept', card: { revision: 2 } });
  expect(await store.cards()).toHaveLength(1);
  expect((await store.cards())[0]).toMatchObject({ place: '12 Mill Lane', status: 'dug', archived: true });
});

test('a picture is written once, shared by versions and copies, and goes with the last of them', async () => {
  await store.write(writing({ picture: 'AAAA' }));
  await store.write(writing({ from: 1, picture: undefined, text: site('Birch'), now: EVERY * 2 }));
  await store.write(writing({ from: 2, picture: 'BBBB', text: site('Cedar'), now: EVERY * 4 }));
  expect((await store.load('a'))?.work.picture).toBe('BBBB');
  const [second, first] = await store.versions('a');
  expect((await store.version(first?.id ?? 0))?.data).toBe('AAAA');
  expect(second?.picture).toBe(first?.picture);
  const found = await store.load('a');
  if (!found) throw new Error('lost');
  const copy = await store.add(found);
  expect(copy).not.toBe('a');
  await store.forget(['a']);
  expect(await store.load('a')).toBeUndefined();
  expect(await store.versions('a')).toEqual([]);
  expect((await store.load(copy))?.work.picture).toBe('BBBB');
  await store.forget([copy]);
  const db = await openDB(name);
  for (const left of ['jobs', 'works', 'pictures', 'versions', 'version-texts']) expect(await db.count(left)).toBe(0);
  db.close();
});

test('photographs are written once each, shared by versions and copies, and go with the last of them', async () => {
  const keys = async () => {
    const db = await openDB(name);
    const all = await db.getAllKeys('pictures');
    db.close();
    return all.length;
  };
  await store.write(writing({ picture: 'AAAA\nx BBBB' }));
  await store.write(writing({ from: 1, picture: 'AAAA\nx BBBB\ny CCCC', text: site('Birch'), now: EVERY * 2 }));
  expect(await keys()).toBe(3);
  await store.write(writing({ from: 2, picture: undefined, text: site('Cedar'), now: EVERY * 4 }));
  const found = await store.load('a');
  expect(found?.work.picture).toBe('AAAA\nx BBBB\ny CCCC');
  expect(found?.card.digest.split('-')[2]).toBe(String('AAAA\nx BBBB\ny CCCC'.length));
  const [, first] = await store.versions('a');
  expect((await store.version(first?.id ?? 0))?.data).toBe('AAAA\nx BBBB');
  if (!found) throw new Error('lost');
  const copy = await store.add(found);
  await store.forget(['a']);
  expect((await store.load(copy))?.work.picture).toBe('AAAA\nx BBBB\ny CCCC');
  await store.forget([copy]);
  expect(await keys()).toBe(0);
});

test('a version is put aside when the last is old, as the job stood before the change', async () => {
  await store.write(writing());
  await store.write(writing({ from: 1, text: site('Birch'), now: 2000 }));
  await store.write(writing({ from: 2, text: site('Cedar'), now: 3000 }));
  await store.write(writing({ from: 3, text: site('Dogwood'), now: 2000 + EVERY }));
  const versions = await store.versions('a');
  expect(versions.map((it) => it.at)).toEqual([3000, 1000]);
  const texts = await Promise.all(versions.map(async (it) => (await store.version(it.id))?.text));
  expect(texts).toEqual([site('Cedar'), site('Alder')]);
});

test('a version under a name stays, and can be named otherwise', async () => {
  await store.write(writing());
  await store.nameState('a', 'Shown to the owner', 5000);
  const [version] = await store.versions('a');
  expect(version).toMatchObject({ name: 'Shown to the owner', at: 1000, made: 5000 });
  await store.nameVersion(version?.id ?? 0, 'Before the fence');
  expect((await store.versions('a'))[0]?.name).toBe('Before the fence');
});

test('what cannot be written leaves everything as it was, and says why', async () => {
  await store.write(writing());
  const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
    throw new DOMException('no room', 'QuotaExceededError');
  });
  const error = await store.write(writing({ from: 1, text: site('Birch') })).catch((why: unknown) => why);
  put.mockRestore();
  expect(kindOf(error)).toBe('full');
  expect((await store.load('a'))?.work.text).toBe(site('Alder'));
  expect(await store.write(writing({ from: 1, text: site('Birch') }))).toMatchObject({ how: 'kept', card: { revision: 2 } });
});

test('a database that does not open is asked again the next time', async () => {
  const open = vi.spyOn(indexedDB, 'open').mockImplementationOnce(() => {
    throw new DOMException('not here', 'SecurityError');
  });
  const error = await store.write(writing()).catch((why: unknown) => why);
  expect(kindOf(error)).toBe('refused');
  expect(await store.write(writing())).toMatchObject({ how: 'kept', card: { revision: 1 } });
  open.mockRestore();
});
