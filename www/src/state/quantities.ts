// The quantities beside the plan, as they follow from the ledger's revision. Their low and high a worker finds once
// the hand rests; the planner takes them over and tells them with everything else.
import { computed, effect, signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import { giveUpOlder, study } from '../core/study.ts';
import type { Answer, Question, Tally } from '../core/types.ts';
import { bareText } from './document.ts';
import { sharing } from './sharing.ts';
import { held, ledger } from './store.ts';

/** Every quantity of the site as it stands; none before a site was looked at. */
export const tally = signal<Tally | null>(null);

/** The quantities that have a low and a high when nothing moves, as far as is known. */
export const ranged = signal<ReadonlySet<string>>(new Set());

/** Low and high could not be found: the worker stopped. */
export const rangesStopped = signal(false);

const revision = computed(() => ledger.value?.revision ?? -1);

/** Takes over what the core says of the quantities now. */
export function takeTally(): void {
  const now = ask((p) => sharing(tally.value, p.tally()), tally.value);
  tally.value = now;
  if (!now || now.without_ranges) return;
  const keys = now.quantities.filter((it) => it.range).map((it) => it.key);
  if (keys.join() !== [...ranged.value].join()) ranged.value = new Set(keys);
}

/** The hand has to rest so long before low and high are asked for, milliseconds. */
const REST = 200;

effect(() => {
  const of = revision.value;
  giveUpOlder(of);
  rangesStopped.value = false;
  if (of === -1 || held.value !== null) return;
  const resting = setTimeout(() => void findRanges(of), REST);
  return () => clearTimeout(resting);
});

async function findRanges(of: number): Promise<void> {
  if (tally.value?.without_ranges !== true) return;
  try {
    const found = await study(bareText(), of, 'ranges');
    if (found.kind === 'ranges' && ask((p) => p.set_ranges(found.value, of), false)) takeTally();
  } catch (why) {
    if (why !== 'stale') rangesStopped.value = true;
  }
}

/** Asks for low and high once more, where that failed. */
export function tryRangesAgain(): void {
  rangesStopped.value = false;
  void findRanges(revision.value);
}

/** Another planner counts its changes anew. */
export function forgetQuantities(): void {
  giveUpOlder(-1);
}

/** Asks the worker of the site as it stands. Fails with an `Unanswered`. */
export function askStudy(question: Question, listening?: Parameters<typeof study>[3]): Promise<Answer> {
  // Only a report names the picture, whose data is large.
  const pictured = question === 'report-text' || question === 'report-json';
  const text = pictured ? ask((p) => p.save(), '') : bareText();
  return study(text, revision.value, question, listening);
}

/** A text that the worker writes. */
export async function written(question: Question): Promise<string | null> {
  const found = await askStudy(question);
  return found.kind === 'text' ? found.value : null;
}
