// A tape stretched between two things: each end is a thing's edge or a point. The core measures it and keeps it with the
// site; here is what has been picked so far.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { Finding, Tape, TapeEnd } from '../core/types.ts';
import { edit } from '../state/actions.ts';
import { endShape } from './shape.ts';
import { shaping, site } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { askForFrame } from './frame.ts';
import { pickPoint } from './pick.ts';
import { current, siteAt } from './view.ts';

export type Ends = [TapeEnd | null, TapeEnd | null];

interface Taping {
  ends: Ends;
  /** What the core had against the tape. */
  word: string;
}

export const taping = signal<Taping | null>(null);

export const sameEnd = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** What a tape is held to that is put down at a place of the site. */
export const endAt = (x: number, y: number, reach: number): TapeEnd | null =>
  JSON.parse(ask((p) => p.tape_end_at(x, y, reach), 'null')) as TapeEnd | null;

/** Everything it may be held to but points, by name. */
export function choices(): { end: TapeEnd; name: string }[] {
  const told = ask((p) => p.tape_choices(), []);
  return Array.from({ length: told.length / 2 }, (_, i) => ({
    end: JSON.parse(told[2 * i] ?? '') as TapeEnd,
    name: told[2 * i + 1] ?? '',
  }));
}

const NEW: Taping = { ends: [null, null], word: '' };

export function startTape(): void {
  if (shaping.value) endShape();
  taping.value = taping.value ? null : NEW;
}

/** Says whether there was one. */
export function endTape(): boolean {
  const was = taping.value !== null;
  taping.value = null;
  return was;
}

const kept = (): Tape[] => site.value?.tapes ?? [];

/** Which of the kept tapes has these ends; -1 for none. */
export const indexOf = ([from, to]: Ends): number => kept().findIndex((it) => sameEnd(it, { from, to }));

/** Holds an end to something. Once both are held the tape is kept with the site; one that is kept is changed. */
export function holdEnd(which: 0 | 1, end: TapeEnd | null): void {
  const before = taping.value?.ends ?? NEW.ends;
  const ends: Ends = which === 0 ? [end, before[1]] : [before[0], end];
  const [from, to] = ends;
  let findings: Finding[] = [];
  if (from && to) {
    const at = indexOf(before);
    const tapes = kept().filter((_, i) => i !== at);
    findings = edit({ 'set-tapes': at < 0 ? [...tapes, { from, to }] : tapes.toSpliced(at, 0, { from, to }) });
  }
  taping.value = { ends, word: findings.map((it) => `${it.message} ${it.remedy}`).join(' ') };
}

/** Puts an end down at a place on the canvas: the first, then the other, then the first of the next tape. */
export function tapTape(at: { x: number; y: number }, reach: number): void {
  const [x, y] = siteAt(current.view, at.x, at.y);
  const end = endAt(x, y, reach / current.view.scale);
  const [from, to] = taping.value?.ends ?? NEW.ends;
  if (from && to && indexOf([from, to]) >= 0) taping.value = NEW;
  holdEnd(taping.value?.ends[0] ? 1 : 0, end);
}

/** Asks for a point of the plan, by any hand or typed, and holds an end to it. */
export async function holdToPoint(which: 0 | 1): Promise<void> {
  const at = await pickPoint(which === 0 ? phrase('The first end of the tape') : phrase('The other end of the tape'));
  if (at && taping.value) holdEnd(which, { at });
}

export function removeTape(index: number): void {
  edit({ 'set-tapes': kept().filter((_, i) => i !== index) });
  askForFrame();
}
