// The one living planner, and what happens when it dies. A call that throws means the core has crashed: its memory is
// not to be trusted any more. A new one is started and given the last good document, which is kept out here. One that
// keeps dying is left dead: the page then offers the work as a file.
import { crashCounter } from './crashes.ts';
import { freshCore, type Core } from './load.ts';
import type { Planner } from './types.ts';
import { unitsOf } from '../words/region.ts';

/** A site file without its picture's data, and that data (base64, empty for none): it is large and stays the
    same through most edits. */
export interface Work {
  text: string;
  picture: string;
}

/** How a restart ended: with the work open again, on a blank lot, or not at all. */
export type Revival = 'reopened' | 'blank' | 'dead';

let core: Core | undefined;
let planner: Planner | undefined;
let lastGood: Work = { text: '', picture: '' };
const crashes = crashCounter();
let afterRevival: (how: Revival) => void = () => {};

/** Starts the first planner. `revived` runs after each restart that a crash made necessary. */
export async function startPlanner(revived: (how: Revival) => void): Promise<void> {
  afterRevival = revived;
  core = await freshCore();
  planner = born(core);
}

/** Runs one call on the living planner; `otherwise` when there is none or it dies of it. */
export function ask<T>(call: (planner: Planner) => T, otherwise: T): T {
  if (!planner) return otherwise;
  try {
    return call(planner);
  } catch (error) {
    crashed(error);
    return otherwise;
  }
}

/** Runs one call on a planner of its own, which is dropped afterwards. */
export function aside<T>(call: (planner: Planner) => T, otherwise: T): T {
  if (!core || !planner) return otherwise;
  try {
    const other = born(core);
    const answer = call(other);
    other.free();
    return answer;
  } catch (error) {
    crashed(error);
    return otherwise;
  }
}

let theme = 'light';

/** Has the plan painted in the colors of a theme, by this planner and those that come after it. */
export function colorPlan(name: string): void {
  theme = name;
  ask((p) => p.set_theme(name), undefined);
}

function born(of: Core): Planner {
  const planner = new of.Planner() as Planner;
  planner.set_theme(theme);
  // A job begins in the units of the device's region; one that is opened keeps its own.
  const display = unitsOf(navigator.language);
  if (display !== 'feet') planner.open(JSON.stringify({ ...(JSON.parse(planner.save()) as object), display }));
  return planner;
}

/** Remembers a document that was computed and painted without trouble. */
export function keepGood(work: Work): void {
  lastGood = work;
}

/** The document that a restart would reopen. */
export function good(): Work {
  return lastGood;
}

/** Starts afresh on a blank lot after the planner was left dead. */
export async function startOver(): Promise<void> {
  crashes.forget();
  lastGood = { text: '', picture: '' };
  await revive();
}

function crashed(error: unknown): void {
  console.error('the core stopped', error);
  planner = undefined;
  if (crashes.tooMany()) afterRevival('dead');
  else void revive();
}

async function revive(): Promise<void> {
  try {
    core = await freshCore();
    const fresh = born(core);
    const reopened = lastGood.text !== '' && fresh.open_kept(lastGood.text, lastGood.picture).ok;
    planner = fresh;
    afterRevival(reopened ? 'reopened' : 'blank');
  } catch (error) {
    crashed(error);
  }
}
