// What is done to jobs in the list without opening them.
import { signal } from '@preact/signals';
import { say } from '../state/refresh.ts';
import { phrase } from '../words/words.ts';
import { flush, openJob, tellList } from './desk.ts';
import { cards, jobs, loadCards, store } from './list.ts';
import { copyName, newId, renamed } from './model.ts';
import { closeJob } from './open.ts';
import type { CardChange } from './store.ts';
import { jobsAtWork } from './tabs.ts';
import { kindOf, TROUBLE_WORDS } from './trouble.ts';

/** What was deleted last, while it can still be had back with one step. */
export const justDeleted = signal<{ id: string; name: string } | null>(null);

/** Does something to the list, has all tabs show it, and tells what barred it. */
async function toList(does: () => Promise<void>): Promise<boolean> {
  try {
    await does();
    return true;
  } catch (error) {
    const kind = kindOf(error);
    say(kind === 'failed' ? phrase('That could not be kept on this device. Try again.') : phrase(TROUBLE_WORDS[kind]), 'bad');
    return false;
  } finally {
    await loadCards();
    tellList();
  }
}

export const setCard = (id: string, change: CardChange): Promise<boolean> => toList(() => store.change(id, change));

/** Puts a copy of a job beside it. */
export async function duplicate(id: string): Promise<string | undefined> {
  let fresh: string | undefined;
  await toList(async () => {
    await flush();
    const found = await store.load(id);
    if (!found) return;
    const { card, work } = found;
    const name = copyName(card.name, jobs.peek().map((it) => it.name));
    const now = Date.now();
    fresh = await store.add({
      card: { ...card, id: newId(), name, archived: false, created: now, changed: now, digest: '' },
      work: { ...work, text: renamed(work.text, () => name), history: '' },
    });
  });
  return fresh;
}

/** Deletes a job, so that it can be had back. One that is open in another tab stays. */
export async function deleteJob(id: string): Promise<void> {
  const card = cards.peek().find((it) => it.id === id);
  if (!card) return;
  const isOpen = openJob.peek() === id;
  const elsewhere = !isOpen && (await jobsAtWork().catch(() => new Set<string>())).has(id);
  if (elsewhere) return say(phrase('{name} is open in another tab. Close it there first.', { name: card.name }), 'bad');
  if (isOpen) await closeJob();
  if (await setCard(id, { deleted: Date.now() })) justDeleted.value = { id, name: card.name };
}

/** Has the job back that was deleted last. */
export async function takeBack(): Promise<void> {
  const it = justDeleted.peek();
  if (it && (await setCard(it.id, { deleted: null }))) justDeleted.value = null;
}
