// The list of jobs as the page knows it, kept in step with what the device has.
import { computed, signal } from '@preact/signals';
import { listed, type JobCard } from './model.ts';
import { JobsStore } from './store.ts';

export const store = new JobsStore();

/** The card of every job that is kept. */
export const cards = signal<readonly JobCard[]>([]);
/** The jobs of somebody's own, archived or not. */
export const jobs = computed(() => listed(cards.value));

/** Reads the list anew; it stays as it is where the device does not answer. */
export async function loadCards(): Promise<void> {
  try {
    cards.value = await store.cards();
  } catch (error) {
    console.warn('the list of jobs cannot be read', error);
  }
}
