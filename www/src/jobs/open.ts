// Opening jobs: from the list, from a file, a copy of an example, a blank lot. The job that was open is kept first, and
// stays as it is where the other cannot be opened.
import { batch, effect } from '@preact/signals';
import { emptyLot } from '../book/shelf.ts';
import { ask, aside, keepGood } from '../core/planner.ts';
import type { Outcome } from '../core/types.ts';
import { followPicture } from '../picture/shown.ts';
import { askForFrame } from '../plan/frame.ts';
import { giveUpDrawing } from '../plan/pick.ts';
import { fitSoon } from '../plan/view.ts';
import { bareText } from '../state/document.ts';
import { refresh, say } from '../state/refresh.ts';
import { catalogue, ledger, ledgerUp, sheet, step, trouble } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { clear, flush, historyOf, lay, noteTrouble, openJob, remembered, settle, shownText, startDesk, type Shown } from './desk.ts';
import { blocked, cards, jobs, loadCards, store } from './list.ts';
import { copyName, digestOf, newId, renamed, type JobCard } from './model.ts';
import { jobsAtWork } from './tabs.ts';
import type { WholeJob } from './store.ts';

const NOTHING_DONE: Outcome = { ok: false, findings: [] };

/** Opens the step that comes next, or gives the plan the room once a shell stands on it. */
export function giveRoom(): void {
  ledgerUp.value = false;
  step.value = ledger.value?.shell ? null : 'shell';
}

/** Where a site comes from that becomes a job: somebody's file, a copy of an example, or a blank lot. */
export type Source = 'file' | 'copy' | 'blank';

/** Opens a site file as a job of its own. When it cannot be opened the open job stays and the findings are shown. */
export function openText(text: string, called: string, source: Source = 'file'): boolean {
  giveUpDrawing();
  void flush();
  const before = { id: openJob.peek(), text: shownText() };
  const names = jobs.value.map((it) => it.name);
  const own = source === 'copy' ? renamed(text, (name) => copyName(name, names)) : text;
  const outcome = ask((p) => p.open(own), NOTHING_DONE);
  if (!outcome.ok) {
    trouble.value = { title: phrase('{name} was not opened. Your open work is as it was.', { name: called }), findings: outcome.findings };
    return false;
  }
  const stopping = outcome.findings.filter((finding) => finding.severity === 'fault');
  batch(() => {
    trouble.value = stopping.length > 0 ? { title: phrase('{name} was opened, with faults.', { name: called }), findings: stopping } : null;
    show();
  });
  layOpened(source, before);
  return true;
}

/** Lays the site that was just opened on the desk: as the job of the list that it is to the last digit, or else as a
    new one. `before`: what was open until now. */
function layOpened(source: Source, before: { id: string | null; text: string | undefined }): void {
  const now = shown();
  if (source === 'file') {
    if (now.text === before.text && before.id !== null) {
      // It is what was open: its undo is given back.
      ask((p) => p.restore_history(historyOf(now.text)), false);
      return refresh();
    }
    const digest = digestOf(now.text, now.picture);
    const twin = jobs.peek().find((it) => it.digest === digest && it.id !== before.id);
    if (twin) {
      say(phrase('This file is one of your jobs already: that one is open now.'));
      void lay(twin, now).then(() => giveUndoBack(twin.id, now.text));
      return;
    }
  }
  void lay({ id: newId(), revision: 0, untouched: source !== 'file' }, now);
}

/** Gives a job that was opened from its file the undo that is kept of it, unless something was done to it since. */
async function giveUndoBack(id: string, text: string): Promise<void> {
  const found = await load(id);
  if (openJob.peek() !== id || found?.work.text !== text || bareText() !== text) return;
  ask((p) => p.restore_history(found.work.history), false);
  refresh();
}

/** What the planner holds now, as it is compared with what is kept. */
const shown = (): Shown => ({ text: bareText(), picture: followPicture(), at: ledger.peek()?.revision ?? -1 });

/** Has the page show the site that was just opened. */
function show(): void {
  sheet.value = null;
  fitSoon();
  refresh();
  giveRoom();
}

/** Starts a job on an empty lot. */
export async function startBlank(): Promise<void> {
  const { text, begun, refused } = await emptyLot();
  if (text === '' || !openText(text, phrase('An empty lot'), 'blank')) return;
  step.value = 'lot';
  if (refused.length > 0) trouble.value = { title: phrase('The job begins without what the book has for new jobs.'), findings: refused };
  if (begun.length > 0) say(phrase('The job begins with {entries} from the company’s book.', { entries: begun.join(', ') }));
}

/** Opens a job of the list. False where it cannot be; the open one stays then. */
export async function openKept(id: string): Promise<boolean> {
  if (id === openJob.peek()) {
    sheet.value = null;
    return true;
  }
  await flush();
  const found = await load(id);
  if (!found || !put(found)) return false;
  batch(show);
  await lay(found.card, shown());
  return true;
}

async function load(id: string): Promise<WholeJob | undefined> {
  try {
    const found = await store.load(id);
    if (!found) say(phrase('This job is not on this device any more.'), 'bad');
    return found;
  } catch (error) {
    console.warn('a job cannot be read from this device', error);
    say(phrase('This job could not be read from this device. Reload the page and try again.'), 'bad');
    return undefined;
  }
}

/** Gives the planner a job as it was kept, with its undo. */
function put({ card, work }: WholeJob): boolean {
  giveUpDrawing();
  const outcome = ask((p) => p.open_kept(work.text, work.picture), NOTHING_DONE);
  if (outcome.ok) {
    ask((p) => p.restore_history(work.history), false);
    return true;
  }
  trouble.value = { title: phrase('{name} was not opened. Your open work is as it was.', { name: card.name || phrase('The job') }), findings: outcome.findings };
  return false;
}

/** Shows the open job as another tab has kept it; the view stays where it is. */
async function follow(id: string): Promise<void> {
  const found = await load(id);
  if (!found || openJob.peek() !== id || !put(found)) return;
  refresh();
  const now = shown();
  keepGood({ text: now.text, picture: now.picture });
  settle(found.card.revision, now);
  askForFrame();
}

/** Gives the open site a name that tells it from the job it has parted from. */
function rename(): string {
  const now = ledger.peek();
  const name = copyName(now?.name ?? '', cards.peek().map((it) => it.name));
  ask((p) => p.apply({ rename: { name, note: now?.note ?? '' } }), NOTHING_DONE);
  refresh();
  return name;
}

/** Leaves the open job for an empty lot that is no job yet. */
export async function closeJob(): Promise<void> {
  await flush();
  const blank = aside((p) => p.save(), '');
  if (!blank || !ask((p) => p.open(blank), NOTHING_DONE).ok) return;
  fitSoon();
  refresh();
  clear(shown());
}

/** Brings back the job that this tab had, or else the one that was open last; or shows the first sheet. */
export async function beginJobs(): Promise<void> {
  startDesk({ follow, rename });
  const wrong = await Promise.race([loadCards(), isBlocked()]);
  if (wrong !== undefined && !blocked.value) noteTrouble(wrong);
  const id = wrong === undefined ? await lastJob() : undefined;
  const found = id === undefined ? undefined : await load(id);
  const opened = found !== undefined && put(found);
  catalogue.value = ask((p) => p.catalogue(), []);
  if (!opened) sheet.value = 'welcome';
  if (found && !opened) say(phrase('The work kept on this device could not be reopened. It is still there.'), 'bad');
  refresh();
  giveRoom();
  if (found && opened) await lay(found.card, shown());
  void sweep();
}

/** Resolves where a tab with an older page keeps the jobs: nothing is waited for then. */
const isBlocked = (): Promise<'blocked'> =>
  new Promise((done) => {
    const stop = effect(() => {
      if (blocked.value) done('blocked');
    });
    setTimeout(stop, 60_000);
  });

async function lastJob(): Promise<string | undefined> {
  const there = new Map(cards.peek().map((card) => [card.id, card]));
  const mine = there.get(remembered());
  if (mine?.deleted === null) return mine.id;
  try {
    const last = there.get((await store.last()) ?? '');
    return last?.deleted === null ? last.id : undefined;
  } catch {
    return undefined;
  }
}

const DAY = 24 * 3600_000;
/** A deleted job can be had back for so long, milliseconds. */
const DELETED_FOR = 30 * DAY;

/** Forgets what nobody wants any more: jobs deleted long ago, copies that nobody touched. */
async function sweep(): Promise<void> {
  const now = Date.now();
  const isGone = (card: JobCard): boolean =>
    (card.deleted !== null && now - card.deleted > DELETED_FOR) || (card.untouched && now - card.changed > DAY);
  const gone = cards.peek().filter((card) => isGone(card) && card.id !== openJob.peek());
  if (gone.length === 0) return;
  try {
    const atWork = await jobsAtWork();
    await store.forget(gone.map((it) => it.id).filter((id) => !atWork.has(id)));
    await loadCards();
  } catch (error) {
    console.warn('what was deleted could not be cleared away', error);
  }
}
