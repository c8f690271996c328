// The search under way, and what it has found: kept while its part of the panel is folded away.
import { signal } from '@preact/signals';
import { another, ask } from '../paper/press.ts';
import type { FitCard, FitWish, SmallSite } from '../paper/messages.ts';
import { bareText } from '../state/document.ts';
import { catalogue, ledger, standing } from '../state/store.ts';

export interface Search {
  /** Of the site it was begun on: what it found is of that one. */
  revision: number | undefined;
  around: SmallSite;
  cards: FitCard[];
  done: number;
  of: number;
  state: 'under way' | 'stopped' | 'done';
}

export const search = signal<Search | null>(null);
export const failed = signal('');

let latest = 0;

/** What one press searches, and what it has found. */
interface Half {
  ask: typeof ask;
  shells: string[];
  cards: FitCard[];
  done: number;
  of: number;
}

/** The shells shared out between the usual press and, where there are cores for it, another one. */
function shared(shells: string[], other: typeof ask | undefined): Half[] {
  const half = (asked: typeof ask, those: string[]): Half => ({ ask: asked, shells: those, cards: [], done: 0, of: those.length });
  if (!other) return [half(ask, shells)];
  // Alternately: the larger ones take longer.
  const [even, odd] = [0, 1].map((rest) => shells.filter((_, at) => at % 2 === rest));
  return [half(ask, even ?? []), half(other, odd ?? [])];
}

/** Every shell that may be tried, by name: the catalogue's, and the one of the site's own. */
function allShells(): string[] {
  const own = standing.value?.name;
  const names = catalogue.value.map(({ name }) => name);
  return own === undefined || names.includes(own) ? names : [...names, own];
}

/** Begins a search on the open site, in place of any that is under way. */
export async function begin(wish: FitWish): Promise<void> {
  latest += 1;
  const mine = latest;
  const revision = ledger.value?.revision;
  failed.value = '';
  const shells = wish.shells && wish.shells.length > 0 ? wish.shells : allShells();
  const second = shells.length > 1 && navigator.hardwareConcurrency > 1 ? another() : undefined;
  const halves = shared(shells, second && ((what, told) => second.ask(what, told)));
  const site = bareText();
  try {
    const [around] = await Promise.all(halves.map((it) => it.ask('find', { site, wish: { ...wish, shells: it.shells } })));
    if (mine !== latest || !around) return;
    search.value = { revision, around, cards: [], done: 0, of: shells.length, state: 'under way' };
    await Promise.all(halves.map((it) => goOn(it, halves, mine)));
  } catch (why) {
    if (mine !== latest) return;
    search.value = null;
    failed.value = why instanceof Error ? why.message : String(why);
  } finally {
    second?.end('the search is over');
  }
}

/** A step at a time, so that a newer search or a sheet does not wait for the whole of this one. */
async function goOn(it: Half, halves: Half[], mine: number): Promise<void> {
  do {
    const { progress, cards } = await it.ask('find-on', {});
    if (mine !== latest || search.value === null) return;
    [it.done, it.of] = [progress.done, progress.of];
    it.cards = cards ?? it.cards;
    const sum = (of: 'done' | 'of'): number => halves.reduce((all, half) => all + half[of], 0);
    const all = halves.flatMap((half) => half.cards).sort((a, b) => b.score - a.score || b.fit.room - a.fit.room);
    // Stopped meanwhile: what came is kept.
    const state: Search['state'] = sum('done') >= sum('of') ? 'done' : search.value.state;
    search.value = { ...search.value, cards: cards ? all : search.value.cards, done: sum('done'), of: sum('of'), state };
  } while (search.value.state === 'under way' && it.done < it.of);
}

/** Ends the search and keeps what it has found. */
export function stop(): void {
  if (search.value?.state === 'under way') search.value = { ...search.value, state: 'stopped' };
}
