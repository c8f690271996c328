// The work on this device: the last good document, kept in the browser's own database so that a reload,
// a flat battery or a crash loses nothing.
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

interface Kept extends DBSchema {
  documents: { key: string; value: string };
}

const OPEN_WORK = 'open-work';

let database: Promise<IDBPDatabase<Kept>> | undefined;

function kept(): Promise<IDBPDatabase<Kept>> {
  database ??= openDB<Kept>('batterboard', 1, {
    upgrade: (db) => void db.createObjectStore('documents'),
  });
  return database;
}

/** The document that was open last; nothing where storage is barred or was never written. */
export async function keptWork(): Promise<string | undefined> {
  try {
    return await (await kept()).get('documents', OPEN_WORK);
  } catch (error) {
    console.warn('nothing can be read from this device', error);
    return undefined;
  }
}

let waiting: string | undefined;
let writing = false;

/** Keeps a document. While one is being written only the newest of those that follow waits. */
export async function keepWork(text: string): Promise<void> {
  waiting = text;
  if (writing) return;
  writing = true;
  try {
    while (waiting !== undefined) {
      const next: string = waiting;
      waiting = undefined;
      await (await kept()).put('documents', next, OPEN_WORK);
    }
  } catch (error) {
    console.warn('nothing can be kept on this device', error);
  } finally {
    writing = false;
  }
}
