// The work on this device: the last good document, kept in the browser's own database so that a reload,
// a flat battery or a crash loses nothing.
import type { Work } from '../core/planner.ts';
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

interface Kept extends DBSchema {
  documents: { key: string; value: string };
}

const OPEN_WORK = 'open-work';
/** Its picture's data, beside it: written when it changes, and not at each edit. */
const OPEN_PICTURE = 'open-picture';

let database: Promise<IDBPDatabase<Kept>> | undefined;

function kept(): Promise<IDBPDatabase<Kept>> {
  database ??= openDB<Kept>('batterboard', 1, {
    upgrade: (db) => void db.createObjectStore('documents'),
  });
  return database;
}

/** The document that was open last; nothing where storage is barred or was never written. */
export async function keptWork(): Promise<Work | undefined> {
  try {
    const store = (await kept()).transaction('documents').store;
    const [text, picture] = await Promise.all([store.get(OPEN_WORK), store.get(OPEN_PICTURE)]);
    return text === undefined ? undefined : { text, picture: picture ?? '' };
  } catch (error) {
    console.warn('nothing can be read from this device', error);
    return undefined;
  }
}

let waiting: { text: string; picture: string | undefined } | undefined;
let writing = false;

/** Keeps a document, and its picture's data where that changed. While one is being written only the newest of
    those that follow waits. */
export async function keepWork(text: string, picture: string | undefined): Promise<void> {
  waiting = { text, picture: picture ?? waiting?.picture };
  if (writing) return;
  writing = true;
  try {
    while (waiting !== undefined) {
      const next: { text: string; picture: string | undefined } = waiting;
      waiting = undefined;
      const writing = (await kept()).transaction('documents', 'readwrite');
      void writing.store.put(next.text, OPEN_WORK);
      if (next.picture !== undefined) void writing.store.put(next.picture, OPEN_PICTURE);
      await writing.done;
    }
  } catch (error) {
    console.warn('nothing can be kept on this device', error);
  } finally {
    writing = false;
  }
}
