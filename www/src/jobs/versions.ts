// Earlier states of the open job: what they are, what was changed since, and putting one back.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { ChangesSince } from '../core/types.ts';
import { refresh, say } from '../state/refresh.ts';
import { trouble } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { flush, openJob } from './desk.ts';
import { store } from './list.ts';
import { newId, renamed, copyName, type Version } from './model.ts';
import { jobs, loadCards } from './list.ts';
import { openKept } from './open.ts';

/** The versions of the open job, the latest first; `null` until they were read. */
export const versions = signal<readonly Version[] | null>(null);

export async function loadVersions(): Promise<void> {
  const id = openJob.peek();
  try {
    await flush();
    versions.value = id === null ? [] : await store.versions(id);
  } catch (error) {
    console.warn('the versions cannot be read', error);
    versions.value = [];
    say(phrase('The versions could not be read from this device.'), 'bad');
  }
}

/** Keeps the job as it stands, under a name. */
export async function nameNow(name: string): Promise<void> {
  const id = openJob.peek();
  if (id === null) return say(phrase('Nothing was done yet that could be kept.'), 'bad');
  try {
    await flush();
    await store.nameState(id, name, Date.now());
  } catch (error) {
    console.warn('a version could not be kept', error);
    say(phrase('The version could not be kept on this device.'), 'bad');
  }
  await loadVersions();
}

export async function nameVersion(id: number, name: string): Promise<void> {
  await store.nameVersion(id, name).catch(() => say(phrase('The name could not be kept on this device.'), 'bad'));
  await loadVersions();
}

/** What was changed from a version to the job as it stands. */
export async function changesSince(id: number): Promise<ChangesSince | undefined> {
  const old = await store.version(id).catch(() => undefined);
  return old && ask((p) => p.changes_since(old.text, old.data), undefined);
}

/** Puts a version in place of the job as it stands, in one step that can be undone. */
export async function restore(id: number): Promise<boolean> {
  const old = await store.version(id).catch(() => undefined);
  if (!old) {
    say(phrase('This version could not be read from this device.'), 'bad');
    return false;
  }
  const outcome = ask((p) => p.restore_version(old.text, old.data), { ok: false, findings: [] });
  refresh();
  if (outcome.ok) say(phrase('The version is in place. Undo brings back what was there.'), 'good');
  else trouble.value = { title: phrase('The version was not restored. The job is as it was.'), findings: outcome.findings };
  return outcome.ok;
}

/** Makes a job of its own of a version, and opens it. */
export async function openAsJob(id: number): Promise<void> {
  try {
    const old = await store.version(id);
    if (!old) return;
    const card = await store.card(old.job);
    if (!card) return;
    const name = copyName(card.name, jobs.peek().map((it) => it.name));
    const now = Date.now();
    const fresh = await store.add({
      card: { ...card, id: newId(), name, archived: false, created: now, changed: now, figures: old.figures, small: '', digest: '' },
      work: { text: renamed(old.text, () => name), picture: old.data, history: '' },
    });
    await loadCards();
    await openKept(fresh);
  } catch (error) {
    console.warn('a version could not become a job', error);
    say(phrase('The version could not be kept as a job on this device.'), 'bad');
  }
}
