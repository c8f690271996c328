// The job on the desk: kept on this device as it changes, and claimed so that no other tab writes it meanwhile.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { Keepsake } from '../core/types.ts';
import { tally } from '../state/quantities.ts';
import { gesturing, ledger } from '../state/store.ts';
import { figuresIn, smallPicture } from './figures.ts';
import { cards, loadCards, putCard, store } from './list.ts';
import { newId, type Figures } from './model.ts';
import { askToStay } from './persistence.ts';
import { Saver } from './saver.ts';
import { Claim, type Neighbors, type Said } from './tabs.ts';
import { kindOf, type TroubleKind } from './trouble.ts';

/** The job that is open in this tab. */
interface OnDesk {
  id: string;
  /** What was kept of it last; 0 before anything was. */
  revision: number;
  untouched: boolean;
  /** Its text and its picture's data as they were kept last, or as it was opened. */
  text: string;
  picture: string;
  pictureKept: boolean;
  /** What was taken last to be written; nothing where that failed, or nothing was. */
  taken: Shown | undefined;
  claim: Claim | undefined;
}

/** A site as it was painted last. */
export interface Shown {
  text: string;
  picture: string;
  /** The planner's count of changes: undo and redo may lead back to the same text, with another history. */
  at: number;
}

/** What is to be written of a job. */
interface Capture {
  of: OnDesk;
  keepsake: Keepsake;
  picture: string;
  figures: Figures | null;
}

/** A job that could not be kept and is in this tab alone. */
export interface Unkept {
  id: string;
  revision: number;
  text: string;
  picture: string;
}

/** How long a history may be that is kept, bytes of its text: a picture taken away and a day's steps. */
const MOST_HISTORY = 3_000_000;

/** This tab among others. */
const me = newId();

let desk: OnDesk | undefined;
let now: Shown | undefined;
let lastHistory = { text: '', history: '' };

/** The id of the open job; `null` before there is one. */
export const openJob = signal<string | null>(null);
/** The open job is worked on in another tab: it is looked at here. */
export const watching = signal(false);
/** Whether everything is kept. */
export const keeping = signal<'kept' | 'writing' | 'nothing'>('nothing');
/** Why the work is not kept; it stays until it is. */
export const trouble = signal<TroubleKind | null>(null);
/** Jobs that are in this tab alone, the open one not among them. */
export const unkept = signal<readonly Unkept[]>([]);
/** Another tab wrote the same job: what was done here became a job of its own. */
export const parted = signal<{ from: string; name: string } | null>(null);

/** What the desk asks of whoever opens sites. */
export interface Opener {
  /** Shows a job as it is kept now. */
  follow: (id: string) => Promise<void>;
  /** What is open here has another name from now on. */
  rename: () => string;
}

let opener: Opener = { follow: () => Promise.resolve(), rename: () => '' };

let channel: BroadcastChannel | undefined;
const neighbors: Neighbors = { locks: undefined, say: (it) => channel?.postMessage(it) };

/** Listens to the other tabs, and to the page being left. Called once, before anything is laid on the desk. */
export function startDesk(by: Opener): void {
  opener = by;
  neighbors.locks = navigator.locks as LockManager | undefined;
  if ('BroadcastChannel' in window) channel = new BroadcastChannel('batterboard jobs');
  channel?.addEventListener('message', ({ data }: MessageEvent<Said>) => void hear(data));
  // The page may be going: what is not written yet is written at once.
  addEventListener('pagehide', () => void saver.flush());
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && void saver.flush());
  addEventListener('beforeunload', (event) => {
    if ((trouble.value !== null && hasUnkept()) || unkept.value.length > 0) event.preventDefault();
  });
}

/** Tells the other tabs that the list has changed. */
export const tellList = (): void => neighbors.say({ kind: 'list' });

async function hear(said: Said): Promise<void> {
  if (said.kind === 'list') return void loadCards();
  if (said.kind === 'give') return desk?.claim?.hear(said);
  void loadCards();
  if (desk?.id !== said.job || said.revision <= desk.revision) return;
  // Without locks both tabs work: who has nothing of his own takes over what the other did.
  if (watching.value || !hasUnkept()) await opener.follow(said.job);
}

const saver = new Saver<Capture>({ capture, write, failed });

/** Whether there is something to take, to be written. */
function isDue(): boolean {
  if (!desk || !now) return false;
  const { taken } = desk;
  return !taken || now.at !== taken.at || now.text !== taken.text || now.picture !== taken.picture;
}

/** Whether something of the open job is not written yet. */
export const hasUnkept = (): boolean =>
  desk !== undefined && now !== undefined && (desk.revision === 0 || now.text !== desk.text || now.picture !== desk.picture);

/** Lays a job on the desk whose site was just opened; what was there has been written (see `flush`). `revision` is 0
    where it was never kept. True where this tab may work on it. */
export async function lay(job: Pick<OnDesk, 'id' | 'revision' | 'untouched'>, as: Shown): Promise<boolean> {
  leave();
  const { id, revision, untouched } = job;
  const claim = claimOn(id);
  const isKept = revision > 0;
  const { text, picture } = as;
  desk = { id, revision, untouched, text, picture, pictureKept: isKept, taken: isKept ? as : undefined, claim };
  now = as;
  openJob.value = id;
  parted.value = null;
  remember(id);
  if (isKept) void store.setLast(id).catch(() => {});
  keeping.value = isKept ? 'kept' : 'writing';
  const mine = await claim.begin();
  if (desk?.claim !== claim) return mine;
  setWatching(!mine);
  const card = cards.peek().find((it) => it.id === id);
  pictureDue = !isKept || !card?.figures || card.small === '';
  if (isKept) pictureSoon();
  else saver.ask();
  return mine;
}

/** Takes the job off the desk, and forgets a copy that nobody touched. */
function leave(): void {
  const before = desk;
  desk = undefined;
  now = undefined;
  if (!before) return;
  before.claim?.end();
  if (before.untouched) void saver.flush().then(() => forgetUntouched(before.id));
}

function claimOn(job: string): Claim {
  const told = { granted: () => void granted(job), giving: () => give(job), lost: () => lost(job) };
  return new Claim(job, me, told, neighbors);
}

async function forgetUntouched(id: string): Promise<void> {
  await store.forget([id]).catch(() => {});
  await loadCards();
}

/** Nothing is on the desk: an empty lot that nobody asked for. */
export function clear(as: Shown): void {
  leave();
  now = as;
  openJob.value = null;
  keeping.value = 'nothing';
  setWatching(false);
  remember('');
}

let plannerGone = false;

/** The planner stopped and another has begun on an empty lot: what was on the desk is kept as it was painted last. */
export function abandon(): void {
  plannerGone = true;
  void saver.flush();
  plannerGone = false;
  leave();
  openJob.value = null;
  keeping.value = 'nothing';
  watching.value = false;
  remember('');
}

/** The text of the open job as it was painted last. */
export const shownText = (): string | undefined => now?.text;

/** The open site has changed and was painted; it is kept soon. */
export function changed(as: Shown): void {
  if (!desk) {
    // The lot that a first visit begins with becomes a job once something is done to it.
    now ??= as;
    if (as.text === now.text && as.picture === now.picture) return;
    const id = newId();
    const claim = claimOn(id);
    desk = { id, revision: 0, untouched: false, text: '', picture: '', pictureKept: false, taken: undefined, claim };
    void claim.begin();
    openJob.value = id;
    remember(id);
  }
  if (watching.value) return settle(desk.revision, as);
  now = as;
  if (!isDue()) return;
  keeping.value = 'writing';
  pictureDue = true;
  saver.ask();
}

/** The state of a job that was opened before anything is done to it, as this planner writes it. */
export function settle(revision: number, as: Shown): void {
  if (!desk) return;
  now = as;
  Object.assign(desk, { revision, text: as.text, picture: as.picture, pictureKept: true, taken: as });
}

function capture(): Capture | undefined {
  if (!desk || !now || watching.value || !isDue()) return undefined;
  // Without a planner there is what it painted last.
  const painted = { text: now.text, history: '' };
  const keepsake = plannerGone ? painted : ask((p) => p.keepsake(MOST_HISTORY), painted);
  const { picture, at } = now;
  if (keepsake.text !== desk.text) desk.untouched = false;
  lastHistory = keepsake;
  const it = { of: desk, keepsake, picture, figures: gesturing.value ? null : figuresIn(ledger.value, tally.value) };
  now = { text: keepsake.text, picture, at };
  desk.taken = now;
  return it;
}

async function write({ of, keepsake, picture, figures }: Capture): Promise<void> {
  const pictureIsKept = of.pictureKept && picture === of.picture;
  const written = await store.write({
    id: of.id,
    from: of.revision,
    ...keepsake,
    picture: pictureIsKept ? undefined : picture,
    untouched: of.untouched,
    figures: figures ?? cards.peek().find((it) => it.id === of.id)?.figures ?? null,
    now: Date.now(),
  });
  if (written.how === 'conflict') return part(of, keepsake, picture, figures);
  const { revision } = written.card;
  Object.assign(of, { revision, text: keepsake.text, picture, pictureKept: true });
  putCard(written.card);
  neighbors.say({ kind: 'saved', job: of.id, revision });
  unkept.value = unkept.peek().filter((it) => it.id !== of.id);
  if (of === desk) {
    keeping.value = isDue() ? 'writing' : 'kept';
    pictureSoon();
  }
  if (unkept.peek().length > 0) await keepRest();
  else if (of === desk) trouble.value = null;
  if (!of.untouched) askToStay();
}

/** Another tab has written this job since: nothing of it is overwritten, what was done here becomes a job of its own. */
async function part(of: OnDesk, keepsake: Keepsake, picture: string, figures: Figures | null): Promise<void> {
  const from = of.id;
  const id = newId();
  of.claim?.end();
  Object.assign(of, { id, revision: 0, pictureKept: false, claim: undefined, untouched: false });
  if (of === desk) {
    of.claim = claimOn(id);
    void of.claim.begin();
    setWatching(false);
    openJob.value = id;
    remember(id);
    parted.value = { from, name: opener.rename() };
  }
  await write({ of, keepsake, picture, figures });
}

function failed({ of, keepsake, picture }: Capture, error: unknown): void {
  console.warn('the work could not be kept on this device', error);
  trouble.value = kindOf(error);
  of.taken = undefined;
  if (of === desk) {
    keeping.value = 'nothing';
    return;
  }
  const it = { id: of.id, revision: of.revision, text: keepsake.text, picture };
  unkept.value = [...unkept.peek().filter(({ id }) => id !== of.id), it];
}

/** Nothing can be read from this device, nor kept then. */
export const noteTrouble = (error: unknown): void => void (trouble.value = kindOf(error));

/** Tries once more to keep what could not be kept. */
export async function tryAgain(): Promise<void> {
  await saver.flush();
  await keepRest();
}

/** Keeps the jobs that left the desk without being kept; the trouble is over once none is left. */
async function keepRest(): Promise<void> {
  try {
    for (const { id, revision, text, picture } of unkept.peek()) {
      const writing = { text, history: '', picture, untouched: false, figures: null, now: Date.now() };
      const written = await store.write({ ...writing, id, from: revision });
      // Somebody else has written it since: this is a job of its own.
      if (written.how === 'conflict') await store.write({ ...writing, id: newId(), from: 0 });
      unkept.value = unkept.peek().filter((it) => it.id !== id);
    }
    if (openJob.peek() === null || keeping.peek() !== 'nothing') trouble.value = null;
    await loadCards();
  } catch (error) {
    trouble.value = kindOf(error);
  }
}

/** Writes what is not written yet, and the small picture with it, as long as the planner holds this job. */
export function flush(): Promise<void> {
  const picture = paintSmall();
  const written = saver.flush();
  return picture ? written.then(picture) : written;
}

/** What undo needs of a text, where that is what was kept last. */
export const historyOf = (text: string): string => (lastHistory.text === text ? lastHistory.history : '');

function setWatching(on: boolean): void {
  watching.value = on;
  ask((p) => p.set_watching(on), undefined);
}

/** After another planner has taken the place of one that stopped. */
export const watchAgain = (): void => setWatching(watching.peek());

/** Writes everything before another tab has it; no edit comes in between. */
function give(id: string): Promise<void> {
  if (desk?.id === id) ask((p) => p.set_watching(true), undefined);
  return saver.flush();
}

function lost(id: string): void {
  if (desk?.id !== id) return;
  // What is not written yet is written, or becomes a job of its own where the other tab was faster.
  void saver.flush();
  setWatching(true);
  keeping.value = 'kept';
}

async function granted(id: string): Promise<void> {
  if (desk?.id !== id) return;
  await opener.follow(id);
  if (desk?.id === id) setWatching(false);
}

/** Has the job be worked on here and followed there. */
export const takeOverJob = (): void => desk?.claim?.take();

let waitingForIdle = false;

/** Paints the small picture once the page has nothing else to do. */
function pictureSoon(): void {
  if (waitingForIdle) return;
  waitingForIdle = true;
  setTimeout(() => {
    if ('requestIdleCallback' in window) window.requestIdleCallback(() => void keepPicture(), { timeout: IDLE_WITHIN });
    else void keepPicture();
  }, PICTURE_AFTER);
}

/** The picture follows a change by so much, and waits so long for the page to have nothing else to do, milliseconds. */
const PICTURE_AFTER = 700;
const IDLE_WITHIN = 3000;

async function keepPicture(): Promise<void> {
  waitingForIdle = false;
  if (gesturing.value) return pictureSoon();
  // A job that was just opened may not be written yet: only what is written has a card to put the picture on.
  await flush();
}

/** Something is to be seen on the plan that the small picture has not. */
let pictureDue = false;

/** Paints the small picture of the open job where it is due; gives what writes it. */
function paintSmall(): (() => Promise<void>) | undefined {
  const of = desk;
  if (!of || of.untouched || watching.value || !pictureDue || gesturing.value) return undefined;
  const small = ask(smallPicture, '');
  const figures = figuresIn(ledger.value, tally.value);
  pictureDue = false;
  return async () => {
    const card = cards.peek().find((it) => it.id === of.id);
    if (!card || small === '' || (card.small === small && card.figures)) return;
    const change = { small, figures: card.figures ?? figures };
    try {
      await store.change(of.id, change);
      putCard({ ...(cards.peek().find((it) => it.id === of.id) ?? card), ...change });
      tellList();
    } catch {
      // It is painted anew with the next change.
    }
  };
}

const TAB = 'batterboard job';

/** Notes for this tab which job it has, for when it is loaded again. */
function remember(id: string): void {
  try {
    sessionStorage.setItem(TAB, id);
  } catch {
    // Then it opens the job that was open last.
  }
}

/** The job that this tab had; empty for none. */
export function remembered(): string {
  try {
    return sessionStorage.getItem(TAB) ?? '';
  } catch {
    return '';
  }
}
