// What the homeowner is shown: which yard, at what hour of which day, asked of the worker of the sheets.
import { signal } from '@preact/signals';
import type { Asks, ShadeFigures, ShownYard, SunFigures, ViewWish, YardView } from '../paper/messages.ts';
import { newest } from '../paper/newest.ts';
import { ask } from '../paper/press.ts';
import { bareText } from '../state/document.ts';

/** A yard as it was pictured. */
export interface Picture {
  wish: ViewWish;
  view: YardView;
  /** The address of its picture. */
  address: string;
}

export const picture = signal<Picture | null>(null);
/** Why there is none. */
export const refused = signal('');
/** The worker stopped. */
export const stopped = signal(false);
export const sun = signal<{ yard: ShownYard; figures: SunFigures } | null>(null);
/** The sun of `DAY_OF_MONTH` in each month, the first month first, as far as it is known. */
export const year = signal<readonly SunFigures[]>([]);
/** The time looked at, minutes after midnight; none before somebody does. */
export const time = signal<number | null>(null);
export const shade = signal<ShadeFigures | null>(null);

/** The day of each month whose sun is told: two of them are the solstices. */
export const DAY_OF_MONTH = 21;

let given: string | undefined;

/** The open site as it is shown to others: without its images, whose data `bareText` leaves out. */
function shownText(): string {
  const { picture: _, photographs: __, ...rest } = JSON.parse(bareText() || '{}') as Record<string, unknown>;
  return JSON.stringify(rest);
}

/** A yard in a picture of a size, or why there is none. */
export async function pictured(wish: ViewWish): Promise<Asks['yard']['out']> {
  const text = shownText();
  const known = text === given;
  given = text;
  try {
    const it = await ask('yard', { site: known ? undefined : text, wish });
    // A worker that is new since then knows no site.
    return known && 'refused' in it ? await ask('yard', { site: text, wish }) : it;
  } catch (why) {
    given = undefined;
    throw why;
  }
}

const look = newest(
  pictured,
  (wish, it) => {
    refused.value = 'refused' in it ? it.refused : '';
    if ('refused' in it) return;
    const before = picture.value?.address;
    const address = URL.createObjectURL(new Blob([it.svg], { type: 'image/svg+xml' }));
    picture.value = { wish, view: it.view, address };
    if (before) URL.revokeObjectURL(before);
  },
  stopped,
);

/** Pictures a yard. */
export function show(wish: ViewWish): void {
  stopped.value = false;
  look(wish);
}

export interface SunWish {
  yard: ShownYard;
  date: string;
}

/** Works out the sun of a day on a yard that was pictured. */
export const askSun = newest(
  ({ yard, date }: SunWish) => ask('yard-sun', { yard, date, offset: '' }),
  ({ yard }, it) => 'figures' in it && (sun.value = { yard, figures: it.figures }),
  stopped,
);

/** Casts its shade at a time. */
export const askShade = newest(
  ({ yard, date, minutes }: SunWish & { minutes: number }) => ask('yard-shade', { yard, date, offset: '', minutes }),
  (_, it) => (shade.value = it),
  stopped,
);

/** Works out the year, a month after the other, until `gone` says that nobody looks any more. */
export async function askYear(yard: ShownYard, of: string, gone: () => boolean): Promise<void> {
  year.value = [];
  for (let month = 1; month <= 12 && !gone(); month += 1) {
    const date = `${of}-${String(month).padStart(2, '0')}-${DAY_OF_MONTH}`;
    const it = await ask('yard-sun', { yard, date, offset: '' });
    if (gone() || 'refused' in it) return;
    year.value = [...year.value, it.figures];
  }
}

/** Forgets everything: it is closed. */
export function forget(): void {
  if (picture.value) URL.revokeObjectURL(picture.value.address);
  given = undefined;
  picture.value = null;
  refused.value = '';
  sun.value = null;
  shade.value = null;
  time.value = null;
  year.value = [];
}
