// The database of jobs, and how an older one becomes it: version 1 held one document and its picture, which become the
// first job.
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb';
import { newId, type JobCard, type Version } from './model.ts';

/** A site file without its picture's data, the key of those, and what undo needs. */
export interface KeptWork {
  text: string;
  picture: string;
  history: string;
}

export interface JobsDatabase extends DBSchema {
  /** Cards by the job's id: small, and all read at once. */
  jobs: { key: string; value: JobCard };
  /** Works by the job's id. */
  works: { key: string; value: KeptWork };
  /** Data of pictures (base64) by a key of their own: versions and copies share them. */
  pictures: { key: string; value: string };
  versions: { key: number; value: Version; indexes: { job: string } };
  /** The site files of versions, by the version's id. */
  'version-texts': { key: number; value: string };
  /** What the page wants to know when it is opened again. */
  desk: { key: string; value: string };
}

export const VERSION = 2;

/** On the desk: the id of the job that was open last. */
export const OPEN = 'open';
/** On the desk: the company's book. */
export const BOOK = 'book';

type Upgrading = IDBPTransaction<JobsDatabase, StoreNames<JobsDatabase>[], 'versionchange'>;

const FIRST = { documents: 'documents', work: 'open-work', picture: 'open-picture' };

export async function upgrade(db: IDBPDatabase<JobsDatabase>, old: number, during: Upgrading, now: number): Promise<void> {
  if (old < 2) {
    db.createObjectStore('jobs');
    db.createObjectStore('works');
    db.createObjectStore('pictures');
    db.createObjectStore('versions', { keyPath: 'id', autoIncrement: true }).createIndex('job', 'job');
    db.createObjectStore('version-texts');
    db.createObjectStore('desk');
  }
  if (old === 1) await firstJob(db, during, now);
}

/** The one document of version 1 as a job. Its store goes once everything of it is in its new place. */
async function firstJob(db: IDBPDatabase<JobsDatabase>, during: Upgrading, now: number): Promise<void> {
  const before = db as unknown as IDBPDatabase;
  if (!before.objectStoreNames.contains(FIRST.documents)) return;
  const store = (during as unknown as IDBPTransaction<unknown, string[], 'versionchange'>).objectStore(FIRST.documents);
  const text = (await store.get(FIRST.work)) as string | undefined;
  const data = (await store.get(FIRST.picture)) as string | undefined;
  if (text !== undefined) {
    const id = newId();
    const picture = data ? newId() : '';
    if (data) await during.objectStore('pictures').put(data, picture);
    await during.objectStore('works').put({ text, picture, history: '' }, id);
    await during.objectStore('jobs').put(
      {
        id,
        name: nameIn(text),
        place: '',
        status: 'sketched',
        archived: false,
        deleted: null,
        created: now,
        changed: now,
        revision: 1,
        untouched: false,
        figures: null,
        small: '',
        digest: '',
      },
      id,
    );
    await during.objectStore('desk').put(id, OPEN);
  }
  before.deleteObjectStore(FIRST.documents);
}

/** The name that a site file gives its job. */
export function nameIn(text: string): string {
  try {
    const { name } = JSON.parse(text) as { name?: unknown };
    return typeof name === 'string' ? name : '';
  } catch {
    return '';
  }
}
