// What sheet is wanted, as chosen: kept while the page is open.
import { signal } from '@preact/signals';
import type { SheetWish } from './messages.ts';

type SheetKind = SheetWish['kind'];
/** Everything that a wish says. */
export type Wish = Required<SheetWish>;

export const KINDS: readonly [SheetKind, string, string][] = [
  ['permit', 'Permit plan', 'For the authority: the lot to scale, clearances, coverage.'],
  ['dig', 'Dig sheet', 'For the crew: stakes, ties, levels, sections, order of work.'],
  ['takeoff', 'Takeoff', 'For ordering: quantities with low and high, and their working.'],
  ['home', 'Homeowner’s sheet', 'The plan in color, size and depth; nothing technical.'],
  ['record', 'Record', 'What was read in the yard: as dug, as set, and its photographs.'],
  ['report', 'Report', 'Everything: verdict, plan, figures, cautions, working.'],
];

export const PAPERS = [
  ['letter', 'Letter, 8 1/2 × 11 in'],
  ['legal', 'Legal, 8 1/2 × 14 in'],
  ['tabloid', 'Tabloid, 11 × 17 in'],
  ['arch-c', 'Arch C, 18 × 24 in'],
  ['arch-d', 'Arch D, 24 × 36 in'],
  ['a4', 'A4, 210 × 297 mm'],
  ['a3', 'A3, 297 × 420 mm'],
] as const;

export const PARTS = [
  ['ground', 'Ground: contours and spots'],
  ['setbacks', 'Setback lines'],
  ['utilities', 'Utilities and septic'],
  ['trees', 'Trees'],
  ['dig', 'Dig'],
  ['pipe', 'Pipe and ties'],
  ['clearances', 'Clearances'],
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
