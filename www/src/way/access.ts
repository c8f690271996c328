// The way in and the crane of the site as it stands, asked of the worker of the sheets: the newest site counts.
import { signal } from '@preact/signals';
import { newest } from '../paper/newest.ts';
import { ask } from '../paper/press.ts';
import type { AccessFigures } from '../paper/messages.ts';
import { bareText } from '../state/document.ts';

/** What was measured last, and of which revision of the site. */
export const access = signal<{ revision: number; figures: AccessFigures } | null>(null);
/** The worker stopped. */
export const accessStopped = signal(false);

const measureAccess = newest(
  (_: number) => ask('access', { text: bareText() }),
  (revision, figures) => (access.value = { revision, figures }),
  accessStopped,
);

/** Measures a revision, unless a newer one comes first. */
export function measure(revision: number): void {
  accessStopped.value = false;
  if (access.value?.revision !== revision) measureAccess(revision);
}

/** Another site or planner counts its changes anew. */
export function forgetAccess(): void {
  access.value = null;
  measureAccess(null);
}
