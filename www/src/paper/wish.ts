// What sheet is wanted, as chosen: kept while the page is open.
import { signal } from '@preact/signals';
import { language } from '../words/language.ts';
import { english, type English } from '../words/words.ts';
import type { SheetWish } from './messages.ts';

type SheetKind = SheetWish['kind'];
/** Everything that a wish says. */
export type Wish = Required<SheetWish>;

export const KINDS: readonly [SheetKind, English, English][] = [
  ['permit', english('Permit plan'), english('For the authority: the lot to scale, clearances, coverage.')],
  ['dig', english('Dig sheet'), english('For the crew: stakes, ties, levels, sections, order of work.')],
  ['takeoff', english('Takeoff'), english('For ordering: quantities with low and high, and their working.')],
  ['home', english('Homeowner’s sheet'), english('The plan in color, size and depth; nothing technical.')],
  ['record', english('Record'), english('What was read in the yard: as dug, as set, and its photographs.')],
  ['report', english('Report'), english('Everything: verdict, plan, figures, cautions, working.')],
];

export const PAPERS = [
  ['letter', english('Letter, 8 1/2 × 11 in')],
  ['legal', english('Legal, 8 1/2 × 14 in')],
  ['tabloid', english('Tabloid, 11 × 17 in')],
  ['arch-c', english('Arch C, 18 × 24 in')],
  ['arch-d', english('Arch D, 24 × 36 in')],
  ['a4', english('A4, 210 × 297 mm')],
  ['a3', english('A3, 297 × 420 mm')],
] as const;

export const PARTS = [
  ['ground', english('Ground: contours and spots')],
  ['setbacks', english('Setback lines')],
  ['utilities', english('Utilities and septic')],
  ['trees', english('Trees')],
  ['dig', english('Dig')],
  ['pipe', english('Pipe and ties')],
  ['clearances', english('Clearances')],
] as const;

/** The day as the device has it. */
function today(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export const wish = signal<Wish>({
  kind: 'permit',
  paper: null,
  lie: null,
  scale: null,
  centre: null,
  language: 'english',
  without: [],
  price: false,
  day: today(),
});

/** Changes some of the wish; another kind or paper begins with the plan as proposed. */
export function wishFor(some: Partial<Wish>): void {
  const anew = 'kind' in some || 'paper' in some || 'lie' in some;
  wish.value = { ...wish.value, ...(anew && { scale: null, centre: null }), ...some };
}

/** Whether a kind has a plan, comes in Spanish, has a price. */
export const hasPlan = (kind: SheetKind): boolean => kind !== 'takeoff';
export const speaksSpanish = (kind: SheetKind): boolean => kind === 'dig' || kind === 'home' || kind === 'record';

/** The language picked for sheets that come in two; none before somebody did. */
const picked = signal<Wish['language'] | null>(null);

/** What a kind of sheet is said in: as picked, else as the page is, where it comes in that language. */
export const languageFor = (kind: SheetKind): Wish['language'] =>
  speaksSpanish(kind) ? (picked.value ?? (language.value === 'es' ? 'spanish' : 'english')) : 'english';

/** Picks the language of this sheet and of those that come after it. */
export function pickLanguage(wanted: Wish['language']): void {
  picked.value = wanted;
  wishFor({ language: wanted });
}
