// The list of jobs as the page knows it, kept in step with what the device has.
import { computed, signal } from '@preact/signals';
import { listed, type JobCard } from './model.ts';
import { JobsStore } from './store.ts';

/** A tab with an older page keeps the jobs from being read. */
export const blocked = signal(false);

export const store = new JobsStore('batterboard', (on) => (blocked.value = on));

/** The card of every job that is kept. */
export const cards = signal<readonly JobCard[]>([]);
/** The jobs of somebody's own, archived or not. */
export const jobs = computed(() => listed(cards.value));

/** Counts the cards that were taken over without reading the list. */
let puts = 0;

/** Reads the list anew; it stays as it is where the device does not answer. Gives what went wrong. */
export async function loadCards(): Promise<unknown> {
  try {
    const before = puts;
    const read = await store.cards();
    // What was put meanwhile may be newer than what was read.
    if (before !== puts) return loadCards();
    cards.value = read;
    return undefined;
  } catch (error) {
    console.warn('the list of jobs cannot be read', error);
    return error;
  }
}

/** Takes over the card of a job that was just written. */
export function putCard(card: JobCard): void {
  puts += 1;
  cards.value = [...cards.peek().filter((it) => it.id !== card.id), card];
}
