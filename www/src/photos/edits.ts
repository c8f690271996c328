// The edits of a photograph: each is one step that undo takes back.
import type { Finding, Photograph, Point } from '../core/types.ts';
import { pickPoint, pickStretch } from '../plan/pick.ts';
import { edit, editOrTell } from '../state/actions.ts';
import { say } from '../state/refresh.ts';
import { sheet, site } from '../state/store.ts';
import { chosenPhotograph, openedPhotograph } from './door.ts';
import { phrase } from '../words/words.ts';

const TURN = 2 * Math.PI;

/** So many frames at most a sheet takes to go. */
const FRAMES = 30;

/** The photographs of the open site, in the order of their numbers. */
export const photographs = (): Photograph[] => site.value?.photographs ?? [];

export const move = (id: string, at: Point): Finding[] => edit({ photographs: { move: { id, at } } });

export const turn = (id: string, bearing: number | null): Finding[] =>
  edit({ photographs: { turn: { id, bearing: bearing === null ? null : ((bearing % TURN) + TURN) % TURN } } });

/** Looks at it. */
export function look(id: string): void {
  chosenPhotograph.value = openedPhotograph.value = id;
}

type Words = Pick<Photograph, 'note' | 'stage' | 'when'>;

/** Says something else of it. */
export function describe(it: Photograph, change: { [K in keyof Words]?: Words[K] | null }): boolean {
  const now = { note: it.note ?? '', stage: it.stage ?? null, when: it.when ?? '', ...change };
  const words = { id: it.id, note: now.note ?? '', stage: now.stage ?? null, when: now.when ?? '' };
  return editOrTell({ photographs: { describe: words } }, phrase('The photograph was not described.'));
}

/** Removes it; the next one is chosen. */
export function remove(id: string): void {
  const all = photographs();
  const at = all.findIndex((it) => it.id === id);
  const next = all[at + 1] ?? all[at - 1];
  if (!editOrTell({ photographs: { remove: { id } } }, phrase('The photograph was not removed.'))) return;
  chosenPhotograph.value = openedPhotograph.value = next?.id ?? null;
  say(phrase('The photograph was removed. Undo brings it back.'));
}

/** Puts the sheet away, so that the plan can take the keys. */
export async function toPlan(): Promise<void> {
  sheet.value = null;
  // The dialog holds the focus until it is gone from the page.
  for (let frame = 0; frame < FRAMES && document.querySelector('dialog[open]'); frame += 1) {
    await new Promise((done) => requestAnimationFrame(done));
  }
}

/** Has it marked on the plan where it was taken; then it is looked at again. */
export async function pickPlace(id: string): Promise<void> {
  await toPlan();
  const at = await pickPoint(phrase('Mark where the photograph was taken'));
  if (at) editOrTell({ photographs: { move: { id, at } } }, phrase('The photograph was not moved.'));
  sheet.value = 'photographs';
}

/** Has it marked on the plan what it shows, seen from where it was taken. */
export async function pickDirection(id: string): Promise<void> {
  await toPlan();
  const stretch = await pickStretch(phrase('Mark where you stood, then what the photograph shows'));
  if (stretch) {
    const { at, bearing } = stretch;
    const commands = [{ photographs: { move: { id, at } } }, { photographs: { turn: { id, bearing } } }];
    editOrTell({ together: { label: phrase('place a photograph'), commands } }, phrase('The photograph was not placed.'));
  }
  sheet.value = 'photographs';
}
