// All jobs out to one file, and the jobs of a file into the list: each looked at by a planner of its own first. What is
// in the list already stays as it is.
import { aside } from '../core/planner.ts';
import type { Finding } from '../core/types.ts';
import { download } from '../job/download.ts';
import { say } from '../state/refresh.ts';
import { trouble } from '../state/store.ts';
import { count, phrase } from '../words/words.ts';
import { flush, tellList } from './desk.ts';
import { figuresIn, smallPicture } from './figures.ts';
import { cards, jobs, loadCards, store } from './list.ts';
import { imagesOf, joinedKeys, linesOf } from './images.ts';
import { copyName, digestOf, newId, type Figures } from './model.ts';
import type { NewVersion } from './store.ts';
import { packed, unpacked, type FileJob, type JobsFile, type State } from './transfer.ts';

/** Gives the user every job, archived ones too, with its versions, in one file. */
export async function saveAll(): Promise<void> {
  try {
    await flush();
    await loadCards();
    const { file, left } = await gathered();
    const now = Date.now();
    const day = new Date(now).toISOString().slice(0, 10);
    download(packed(file, now), `jobs-${day}.json`, 'application/json');
    const words = count(file.jobs.length, '{n} job saved in one file.', '{n} jobs saved in one file.');
    say(left === 0 ? words : `${words} ${count(left, '{n} job could not be read.', '{n} jobs could not be read.')}`, left === 0 ? 'good' : 'bad');
  } catch (error) {
    console.warn('the jobs could not be written into a file', error);
    say(phrase('The jobs could not be read from this device. Reload the page and try again.'), 'bad');
  }
}

async function gathered(): Promise<{ file: JobsFile; left: number }> {
  const file: JobsFile = { jobs: [], pictures: {} };
  const keys = new Map([['', '']]);
  const keyOf = (line: string): string => {
    if (!keys.has(line)) keys.set(line, `picture-${keys.size}`);
    const key = keys.get(line) ?? '';
    if (key !== '') file.pictures[key] = line;
    return key;
  };
  const state = (text: string, data: string): State => ({
    site: JSON.parse(text) as State['site'],
    picture: joinedKeys(linesOf(data).map(keyOf)),
  });
  let left = 0;
  for (const { id, place, status, archived, created, changed } of jobs.peek()) {
    const found = await store.load(id);
    if (!found) {
      left += 1;
      continue;
    }
    const versions = [];
    for (const { id: number } of await store.versions(id)) {
      const old = await store.version(number);
      if (old) versions.push({ name: old.name, at: old.at, ...state(old.text, old.data) });
    }
    file.jobs.push({ id, place, status, archived, created, changed, ...state(found.work.text, found.work.picture), versions });
  }
  return { file, left };
}

/** Takes the jobs of a file into the list. */
export async function bringIn(text: string, called: string): Promise<void> {
  const { file, findings } = unpacked(text);
  const told = [...findings];
  const came = { fresh: 0, known: 0 };
  for (const [index, job] of file.jobs.entries()) {
    say(phrase('Bringing in job {number} of {all} …', { number: index + 1, all: file.jobs.length }));
    // The page answers between two of them.
    await new Promise((done) => setTimeout(done, 0));
    try {
      came[await bringOne(job, index, file.pictures, told)] += 1;
    } catch (why) {
      if (why !== REFUSED) throw why;
    }
  }
  await loadCards();
  tellList();
  const known =
    came.known > 0 ? ` ${count(came.known, '{n} job in it was here already, and stays as it is.', '{n} jobs in it were here already, and stay as they are.')}` : '';
  const fresh = count(came.fresh, '{n} job brought in from {file}.', '{n} jobs brought in from {file}.', { file: called });
  say(`${fresh}${known}`, came.fresh + came.known > 0 ? 'good' : 'bad');
  if (told.length > 0) trouble.value = { title: phrase('Not everything in {file} could be brought in.', { file: called }), findings: told };
}

const REFUSED = Symbol('refused');

async function bringOne(job: FileJob, index: number, pictures: Record<string, string>, told: Finding[]): Promise<'fresh' | 'known'> {
  const text = JSON.stringify(job.site);
  const here = cards.peek().find((it) => it.id === job.id && it.deleted === null);
  if (here && (await isSame(here.id, text))) return 'known';
  const data = imagesOf(job.picture, pictures);
  const look = lookedAt(text, data);
  if (!look.ok) {
    told.push(...look.findings.map((it) => ({ ...it, pointer: `/jobs/${index}/site${it.pointer}` })));
    throw REFUSED;
  }
  const taken = jobs.peek().map((it) => it.name);
  const name = here && taken.includes(look.name) ? copyName(look.name, taken) : look.name;
  const site = name === look.name ? look.text : JSON.stringify({ ...(JSON.parse(look.text) as object), name });
  const versions = job.versions.map(
    (it): NewVersion => ({
      name: it.name,
      at: it.at,
      made: it.at,
      figures: null,
      text: JSON.stringify(it.site),
      data: imagesOf(it.picture, pictures),
    }),
  );
  const { place, status, archived, created, changed } = job;
  const { figures, small } = look;
  const card = { name, place, status, archived, created, changed, deleted: null, revision: 1, untouched: false, figures, small, digest: digestOf(site, data) };
  await store.add({ card: { ...card, id: job.id || newId() }, work: { text: site, picture: data, history: '' } }, versions);
  await loadCards();
  return 'fresh';
}

async function isSame(id: string, text: string): Promise<boolean> {
  const found = await store.load(id);
  return found !== undefined && JSON.stringify(JSON.parse(found.work.text)) === text;
}

interface Look {
  ok: boolean;
  findings: Finding[];
  name: string;
  text: string;
  figures: Figures | null;
  small: string;
}

/** What a planner of its own says of a site. */
function lookedAt(text: string, data: string): Look {
  const nothing: Look = { ok: false, findings: [], name: '', text, figures: null, small: '' };
  return aside((p): Look => {
    const { ok, findings } = p.open_kept(text, data);
    if (!ok) return { ...nothing, findings };
    const ledger = p.ledger(0, null);
    return { ok, findings: [], name: ledger.name, text: p.save_bare(), figures: figuresIn(ledger, p.tally()), small: smallPicture(p) };
  }, nothing);
}
