// The jobs as this device keeps them: one transaction for each thing that is done, so that it is done whole or not at
// all. Whoever writes a job says which state of it was seen last; where another tab has written since, nothing is.
import { openDB, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { keepImages, keysIn, linesOf, readImages } from './images.ts';
import { digestOf, newId, type Figures, type JobCard, type Version, type Work } from './model.ts';
import { EVERY, toDrop } from './thinning.ts';
import { BOOK, nameIn, OPEN, upgrade, VERSION, type JobsDatabase, type KeptWork } from './upgrade.ts';

/** What is written of the open job. */
export interface Writing {
  id: string;
  /** The revision it goes on from; 0 for a job that was never kept. */
  from: number;
  text: string;
  history: string;
  /** The data of its images; `undefined` where they are those that are kept already. */
  picture: string | undefined;
  untouched: boolean;
  figures: Figures | null;
  now: number;
}

export type Written = { how: 'kept'; card: JobCard } | { how: 'conflict' };

/** What the list alone knows. */
export type CardChange = Partial<Pick<JobCard, 'place' | 'status' | 'archived' | 'deleted' | 'small' | 'figures'>>;

/** A job with everything of it. */
export interface WholeJob {
  card: JobCard;
  work: Work;
}

/** An earlier state with everything of it. */
export interface WholeVersion extends Version {
  text: string;
  data: string;
}

/** An earlier state that comes in. */
export type NewVersion = Omit<WholeVersion, 'id' | 'job' | 'picture'>;

const EVERYTHING = ['jobs', 'works', 'pictures', 'versions', 'version-texts', 'desk'] as const;

export class JobsStore {
  private database: Promise<IDBPDatabase<JobsDatabase>> | undefined;

  /** `waiting` hears whether a tab with an older page keeps the database from being opened. */
  constructor(
    private readonly name = 'batterboard',
    private readonly waiting: (on: boolean) => void = () => {},
  ) {}

  /** Opens the database; again, where it was taken away or would not open before. */
  private open(): Promise<IDBPDatabase<JobsDatabase>> {
    const forget = () => (this.database = undefined);
    this.database ??= openDB<JobsDatabase>(this.name, VERSION, {
      upgrade: (db, old, _, during) => upgrade(db, old, during, Date.now()),
      blocked: () => this.waiting(true),
      // Another tab deletes it, or has a newer page: it is not kept waiting.
      blocking: (_current, _blocked, event) => {
        (event.target as IDBDatabase).close();
        forget();
      },
      terminated: forget,
    }).then(
      (db) => {
        this.waiting(false);
        return db;
      },
      (error: unknown) => {
        forget();
        throw error;
      },
    );
    return this.database;
  }

  /** Does something whole or not at all. */
  private async whole<T>(does: (during: Everything) => Promise<T>): Promise<T> {
    const during = (await this.open()).transaction(EVERYTHING, 'readwrite');
    // Its failure is told by what failed in it.
    during.done.catch(() => {});
    try {
      const answer = await does(during);
      await during.done;
      return answer;
    } catch (error) {
      const why = during.error ?? error;
      try {
        during.abort();
      } catch {
        // It has ended already.
      }
      throw why;
    }
  }

  async cards(): Promise<JobCard[]> {
    return (await this.open()).getAll('jobs');
  }

  async card(id: string): Promise<JobCard | undefined> {
    return (await this.open()).get('jobs', id);
  }

  async load(id: string): Promise<WholeJob | undefined> {
    const during = (await this.open()).transaction(['jobs', 'works', 'pictures']);
    const card = await during.objectStore('jobs').get(id);
    const work = await during.objectStore('works').get(id);
    if (!card || !work) return undefined;
    const pictures = during.objectStore('pictures');
    return { card, work: { ...work, picture: await readImages(work.picture, pictures) } };
  }

  /** The company's book as text; `undefined` where there is none. */
  async book(): Promise<string | undefined> {
    return (await this.open()).get('desk', BOOK);
  }

  /** Keeps the book, unless another tab has changed it since the edition that this one goes on from (0: there was none).
      False where nothing was kept. */
  keepBook(text: string, from: number): Promise<boolean> {
    return this.whole(async (during) => {
      const desk = during.objectStore('desk');
      const kept = await desk.get(BOOK);
      if (kept !== undefined && JSON.parse(kept).edition !== from) return false;
      await desk.put(text, BOOK);
      return true;
    });
  }

  /** Writes the open job, and puts the state before it aside where the last version is old. */
  write({ id, from, text, history, picture, untouched, figures, now }: Writing): Promise<Written> {
    return this.whole(async (during) => {
      const [jobs, works] = [during.objectStore('jobs'), during.objectStore('works')];
      const before = await jobs.get(id);
      if (before && before.revision !== from) return { how: 'conflict' };
      const kept = await works.get(id);
      const same = kept?.text === text;
      if (before && kept && !same) await putAside(during, before, kept, now);
      const pictures = during.objectStore('pictures');
      let key = kept?.picture ?? '';
      if (picture !== undefined) key = await keepImages(picture, key, pictures, newId);
      // The digest before says how long the data are that stay.
      const told = Number.parseInt(before?.digest.split('-')[2] ?? '', 10);
      const data = picture ?? (Number.isNaN(told) ? await readImages(key, pictures) : { length: told });
      const digest = digestOf(text, data);
      const card: JobCard = {
        ...(before ?? { ...NEW, created: now }),
        id,
        name: nameIn(text),
        changed: before && same ? before.changed : now,
        revision: from + 1,
        untouched,
        figures,
        digest,
        // Whoever works on it wants it.
        deleted: null,
      };
      await works.put({ text, picture: key, history }, id);
      await jobs.put(card, id);
      await during.objectStore('desk').put(id, OPEN);
      return { how: 'kept', card };
    });
  }

  /** Changes what the list alone knows of a job; its work stays as it is. */
  change(id: string, change: CardChange): Promise<void> {
    return this.whole(async (during) => {
      const jobs = during.objectStore('jobs');
      const card = await jobs.get(id);
      if (card) await jobs.put({ ...card, ...change }, id);
    });
  }

  /** Puts a job beside those that are there, under an id of its own, with its versions. */
  add({ card, work }: WholeJob, versions: readonly NewVersion[] = []): Promise<string> {
    return this.whole(async (during) => {
      const jobs = during.objectStore('jobs');
      const id = (await jobs.getKey(card.id)) === undefined ? card.id : newId();
      const pictures = during.objectStore('pictures');
      // Versions have what they have in common once.
      const known = new Map<string, string>();
      const key = async (data: string): Promise<string> => {
        const [first = ''] = linesOf(data);
        const keys = await keepImages(data, known.get(first) ?? '', pictures, newId);
        known.set(first, keys);
        return keys;
      };
      await during.objectStore('works').put({ ...work, picture: await key(work.picture) }, id);
      await jobs.put({ ...card, id, revision: 1 }, id);
      for (const { text, data, ...rest } of versions) {
        const fresh = { ...rest, job: id, picture: await key(data) };
        const number = await during.objectStore('versions').add(fresh as Version);
        await during.objectStore('version-texts').put(text, number);
      }
      return id;
    });
  }

  /** Forgets jobs for good, and every picture that nothing has any more. */
  forget(ids: readonly string[]): Promise<void> {
    return this.whole(async (during) => {
      const versions = during.objectStore('versions');
      for (const id of ids) {
        await during.objectStore('jobs').delete(id);
        await during.objectStore('works').delete(id);
        for (const number of await versions.index('job').getAllKeys(id)) {
          await versions.delete(number);
          await during.objectStore('version-texts').delete(number);
        }
      }
      if ((await during.objectStore('pictures').count()) === 0) return;
    const used = new Set<string>();
      const use = (keys: string) => keysIn(keys).forEach((key) => used.add(key));
      for (let at = await versions.openCursor(); at; at = await at.continue()) use(at.value.picture);
      for (let at = await during.objectStore('works').openCursor(); at; at = await at.continue()) use(at.value.picture);
      for (const key of await during.objectStore('pictures').getAllKeys()) {
        if (!used.has(key)) await during.objectStore('pictures').delete(key);
      }
    });
  }

  /** The versions of a job, the latest first. */
  async versions(job: string): Promise<Version[]> {
    const all = await (await this.open()).getAllFromIndex('versions', 'job', job);
    return all.sort((a, b) => b.at - a.at || b.id - a.id);
  }

  async version(id: number): Promise<WholeVersion | undefined> {
    const during = (await this.open()).transaction(['versions', 'version-texts', 'pictures']);
    const version = await during.objectStore('versions').get(id);
    const text = await during.objectStore('version-texts').get(id);
    if (!version || text === undefined) return undefined;
    const data = await readImages(version.picture, during.objectStore('pictures'));
    return { ...version, text, data };
  }

  /** Makes a version, under a name, of a job as it is kept. */
  nameState(job: string, name: string, now: number): Promise<void> {
    return this.whole(async (during) => {
      const card = await during.objectStore('jobs').get(job);
      const work = await during.objectStore('works').get(job);
      if (card && work) {
        const fresh = { job, name, at: card.changed, made: now, figures: card.figures, picture: work.picture };
        const id = await during.objectStore('versions').add(fresh as Version);
        await during.objectStore('version-texts').put(work.text, id);
      }
    });
  }

  /** Names a version, or takes its name away. */
  nameVersion(id: number, name: string): Promise<void> {
    return this.whole(async (during) => {
      const versions = during.objectStore('versions');
      const version = await versions.get(id);
      if (version) await versions.put({ ...version, name });
    });
  }

  /** The id of the job that was open last. */
  async last(): Promise<string | undefined> {
    return (await this.open()).get('desk', OPEN);
  }

  async setLast(id: string): Promise<void> {
    await (await this.open()).put('desk', id, OPEN);
  }
}

/** Makes a version of what was kept, and drops those that have become too many. */
async function putAside(during: Everything, card: JobCard, { text, picture }: KeptWork, now: number): Promise<void> {
  const versions = during.objectStore('versions');
  const all = await versions.index('job').getAll(card.id);
  const newest = all.reduce((latest, it) => Math.max(latest, it.made), Number.NEGATIVE_INFINITY);
  if (now - newest < EVERY || all.some((it) => it.at === card.changed)) return;
  const fresh = { job: card.id, name: '', at: card.changed, made: now, figures: card.figures, picture };
  const id = await versions.add(fresh as Version);
  await during.objectStore('version-texts').put(text, id);
  for (const old of toDrop([...all, { ...fresh, id }], now)) {
    await versions.delete(old);
    await during.objectStore('version-texts').delete(old);
  }
}

type Everything = IDBPTransaction<JobsDatabase, typeof EVERYTHING, 'readwrite'>;

const NEW = { place: '', status: 'sketched', archived: false, small: '' } as const;
