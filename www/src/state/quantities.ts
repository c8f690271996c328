// The quantities beside the plan, as they follow from the ledger's revision; and their low and high, which a worker
// finds once the hand rests.
import { computed, effect, signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import { giveUpOlder, study, type Unanswered } from '../core/study.ts';
import type { CostFigures, Finding, Found, Question, RangeFigures, Tally } from '../core/types.ts';
import { bareText } from './document.ts';
import { held, ledger } from './store.ts';

/** Every quantity of the site as it stands; none before a site was looked at. */
export const tally = signal<Tally | null>(null);

/** Takes over what the core says of them now. */
export function takeTally(): void {
  tally.value = ask((p) => p.tally(), tally.value);
}

const GRAVITY: Record<Finding['severity'], number> = { fault: 0, caution: 1, note: 2 };
const same = (a: Finding, b: Finding): boolean => a.check === b.check && a.place === b.place && a.message === b.message;

/** What to look out for, of plan and quantities together: gravest first, nothing twice. */
export function together(plan: Finding[], quantities: Finding[]): Finding[] {
  const all = [...plan, ...quantities];
  const once = all.filter((finding, index) => all.findIndex((other) => same(finding, other)) === index);
  return once.sort((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity]);
}

export const findings = computed(() => together(ledger.value?.findings ?? [], tally.value?.findings ?? []));

/** Low and high of one revision, by the quantities' keys; and of the cost, where anything has a rate. */
interface Ranges {
  revision: number;
  lines: ReadonlyMap<string, RangeFigures>;
  cost: CostFigures | null;
}

/** The ranges that came last. */
const latest = signal<Ranges | null>(null);

/** They could not be found: the worker stopped. */
export const rangesStopped = signal(false);

const revision = computed(() => ledger.value?.revision ?? -1);

/** The ranges of the site as it stands; none while they are being found. */
export const ranges = computed(() => (latest.value?.revision === revision.value ? latest.value : null));

/** The quantities that have a low and a high when nothing moves, as far as is known. */
export const ranged = computed<ReadonlySet<string>>(() => new Set(latest.value?.lines.keys()));

/** The hand has to rest so long before low and high are asked for, milliseconds. */
const REST = 200;

effect(() => {
  const of = revision.value;
  giveUpOlder(of);
  rangesStopped.value = false;
  if (of === -1 || held.value !== null || tally.peek() === null || latest.peek()?.revision === of) return;
  const resting = setTimeout(() => void findRanges(of), REST);
  return () => clearTimeout(resting);
});

async function findRanges(of: number): Promise<void> {
  try {
    const found = await study(bareText(), of, 'ranges');
    if (!('ranges' in found) || of !== revision.value) return;
    const { lines, cost } = found.ranges;
    latest.value = { revision: of, lines: new Map(lines.map(({ key, range }) => [key, range])), cost };
  } catch (why) {
    if (why !== 'stale') rangesStopped.value = true;
  }
}

/** Asks for low and high once more, where that failed. */
export function tryRangesAgain(): void {
  rangesStopped.value = false;
  void findRanges(revision.value);
}

/** Whatever is known is of another planner, which counts its changes anew. */
export function forgetQuantities(): void {
  giveUpOlder(-1);
  latest.value = null;
}

/** Asks the worker of the site as it stands. Fails with an `Unanswered`. */
export function askStudy(question: Question, told?: (share: number) => void): Promise<Found> {
  const pictured = question === 'report-text' || question === 'report-json';
  const text = pictured ? ask((p) => p.save(), '') : bareText();
  return study(text, revision.value, question, told);
}

export type { Unanswered };

/** A text that the worker wrote, or why there is none. */
export async function written(question: Question, told?: (share: number) => void): Promise<{ text: string | null; findings: Finding[] }> {
  const found = await askStudy(question, told);
  if (!('written' in found)) throw new Error('another question was answered');
  return found.written;
}
