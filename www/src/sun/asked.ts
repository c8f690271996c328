// The sun on the water of the site as it stands, and the shade at one time, asked of the worker of the sheets: the newest
// site, day and time count.
import { signal } from '@preact/signals';
import type { ShadeFigures, SunFigures } from '../paper/messages.ts';
import { newest } from '../paper/newest.ts';
import { ask } from '../paper/press.ts';
import { bareText } from '../state/document.ts';

export interface SunWish {
  /** `2026-06-21`; empty for the usual day. */
  date: string;
  /** As it was typed; empty for that of the longitude. */
  offset: string;
}

/** What is asked for: it stays while the page is open. */
export const wish = signal<SunWish>({ date: '', offset: '' });
/** What was worked out last, and of which revision of the site. */
export const sun = signal<{ revision: number; wish: SunWish; figures: SunFigures } | null>(null);
/** Why a day or an offset was not taken. */
export const refused = signal('');
/** The worker stopped. */
export const stopped = signal(false);
/** The time looked at, minutes after midnight; none before somebody does. */
export const time = signal<number | null>(null);
/** The shade then. */
export const shade = signal<ShadeFigures | null>(null);

const measureSun = newest(
  (of: { revision: number; wish: SunWish }) => ask('sun', { site: bareText(), ...of.wish }),
  ({ revision, wish: asked }, it) => {
    refused.value = 'refused' in it ? it.refused : '';
    if ('figures' in it) sun.value = { revision, wish: asked, figures: it.figures };
  },
  stopped,
);

const castShade = newest(
  (of: { wish: SunWish; minutes: number }) => ask('shade', { site: bareText(), ...of.wish, minutes: of.minutes }),
  (_, it) => (shade.value = it),
  stopped,
);

/** Works out a revision of the site on the day wished for. */
export function measure(revision: number): void {
  stopped.value = false;
  measureSun({ revision, wish: wish.value });
}

/** Casts the shade of the site as it stands at the time looked at. */
export function cast(): void {
  if (time.value !== null) castShade({ wish: wish.value, minutes: time.value });
}

/** Another site or planner counts its changes anew. */
export function forgetSun(): void {
  sun.value = null;
  shade.value = null;
}
