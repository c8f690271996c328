// What a job is, apart from where it is kept: its card in the list, its work, its versions; and what is asked of cards
// without looking at anything else.
import type { Standing } from '../core/types.ts';
import { everyWord } from '../find/words.ts';
import { english, phrase, tag, type English } from '../words/words.ts';

/** How far a job has come, as the trade says it. */
export const STATUSES = ['sketched', 'for-permit', 'ready-to-dig', 'dug', 'set'] as const;
export type Status = (typeof STATUSES)[number];

export const STATUS_WORDS: Record<Status, English> = {
  sketched: english('Sketched'),
  'for-permit': english('For permit'),
  'ready-to-dig': english('Ready to dig'),
  dug: english('Dug'),
  set: english('Set'),
};

/** What the planner said of a job when it was kept, as it was shown. */
export interface Figures {
  standing: Standing;
  /** The verdict in a sentence. */
  verdict: string;
  /** The least room, signed; `null` where nothing is measured. */
  room: string | null;
  short: boolean;
  /** Bank cut; `null` without a shell. */
  cut: string | null;
}

/** What the list shows of a job. Times are milliseconds since 1970. */
export interface JobCard {
  id: string;
  name: string;
  /** Where it is, as somebody typed it. */
  place: string;
  status: Status;
  archived: boolean;
  /** When it was deleted; it can be had back for a while. */
  deleted: number | null;
  created: number;
  changed: number;
  /** Counts what was kept of it: who wants to write must know the last. */
  revision: number;
  /** A copy of an example, or a blank lot, on which nothing was done: it is in no list. */
  untouched: boolean;
  figures: Figures | null;
  /** A small picture of its plan, as an address. */
  small: string;
  /** Tells its text from any other; empty where nobody worked that out. */
  digest: string;
}

/** The site of a job: its file without the picture's data, these, and what undo needs. */
export interface Work {
  text: string;
  picture: string;
  history: string;
}

/** An earlier state of a job. */
export interface Version {
  id: number;
  job: string;
  /** Empty for one that was made by the clock. */
  name: string;
  /** When the job was changed to this state. */
  at: number;
  /** When it was put aside. */
  made: number;
  figures: Figures | null;
  /** The key of its picture's data, empty for none. */
  picture: string;
}

/** A new name for a job or a tab that no other has. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(9));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Tells one site, its text and its picture's data, from another: two hashes of 32 bits by the steps of FNV-1a. */
export function digestOf(text: string, picture: { length: number }): string {
  let [a, b] = [0x811c9dc5, 0x01234567];
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    a = Math.imul(a ^ unit, 0x01000193);
    b = Math.imul(b ^ unit, 0x85ebca6b);
  }
  return `${(a >>> 0).toString(16)}${(b >>> 0).toString(16)}-${text.length}-${picture.length}`;
}

const COPY = /^(?:(?:copy of|copia de)\s+)+/i;

/** What the core calls a job that nobody has named yet (`site::starter`). */
const UNNAMED = 'New job';

/** The name of a job as it is shown. */
export const shownName = (name: string): string => (name === UNNAMED ? phrase('New job') : name);

/** What a copy of a job is called beside those that are there. */
export function copyName(name: string, taken: Iterable<string>): string {
  const known = new Set(Array.from(taken, (it) => it.toLowerCase()));
  const bare = name.trim().replace(COPY, '') || phrase('job');
  const first = phrase('Copy of {name}', { name: bare });
  const stem = first.replace(/ \d+$/, '');
  let next = first;
  for (let number = 2; known.has(next.toLowerCase()); number += 1) next = `${stem} ${number}`;
  return next;
}

/** The text of a site file under another name; as it is where it cannot be read. */
export function renamed(text: string, name: (before: string) => string): string {
  try {
    const site = JSON.parse(text) as { name?: unknown };
    if (typeof site !== 'object' || site === null || Array.isArray(site)) return text;
    const before = typeof site.name === 'string' ? site.name : '';
    return JSON.stringify({ ...site, name: name(before) });
  } catch {
    return text;
  }
}

/** What is looked for in the list. */
export interface Wanted {
  words: string;
  archived: boolean;
}

/** The cards to show, the latest change first. */
export function shownCards(cards: readonly JobCard[], { words, archived }: Wanted): JobCard[] {
  const has = everyWord(words);
  return listed(cards)
    .filter((card) => card.archived === archived && has(`${card.name} ${card.place} ${phrase(STATUS_WORDS[card.status])}`))
    .sort((a, b) => b.changed - a.changed || a.name.localeCompare(b.name));
}

/** The cards that are jobs of somebody's own, archived or not. */
export const listed = (cards: readonly JobCard[]): JobCard[] =>
  cards.filter((card) => !card.untouched && card.deleted === null);

const DAY = 24 * 3600_000;

const midnight = (time: number): number => new Date(time).setHours(0, 0, 0, 0);

/** A time in the words of the day on which it is read. */
export function when(time: number, now: number, within = false): string {
  const clock = new Date(time).toLocaleTimeString(tag(), { hour: 'numeric', minute: '2-digit' });
  const days = Math.round((midnight(now) - midnight(time)) / DAY);
  if (days === 0) return within ? phrase('today {clock}', { clock }) : phrase('Today {clock}', { clock });
  if (days === 1) return within ? phrase('yesterday {clock}', { clock }) : phrase('Yesterday {clock}', { clock });
  const sameYear = new Date(time).getFullYear() === new Date(now).getFullYear();
  const date = new Date(time).toLocaleDateString(tag(), {
    month: 'short',
    day: 'numeric',
    ...(!sameYear && { year: 'numeric' }),
  });
  return `${date}, ${clock}`;
}
