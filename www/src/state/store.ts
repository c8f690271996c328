// What the page knows, as signals. Everything about the job comes from the core and is replaced whole;
// the rest is where the user is on the page.
import { computed, signal, type ReadonlySignal } from '@preact/signals';
import type { Drawn, Finding, DragTarget, Highlight, Ledger, Point, Shaped, ShapeTarget, ShellCard, Site, Wanted } from '../core/types.ts';
import { heard, phrase } from '../words/words.ts';

export const STEPS = ['lot', 'yard', 'ground', 'shell', 'dig'] as const;
export type Step = (typeof STEPS)[number];

/** A sentence for the user that goes away by itself or when dismissed. */
export interface Notice {
  text: string;
  kind: 'good' | 'plain' | 'bad';
}

/** Something that was not done, and why. */
export interface Trouble {
  title: string;
  findings: Finding[];
}

export type Sheet = 'welcome' | 'jobs' | 'versions' | 'book' | 'report' | 'keys' | 'bring-in' | 'write-out' | 'stakes' | 'paper' | 'shown' | 'send' | 'round' | 'takeoff' | 'compare' | 'figures' | 'find' | 'sources' | 'photographs' | null;

export const ledger = signal<Ledger | null>(null);
export const site = signal<Site | null>(null);
export const catalogue = signal<ShellCard[]>([]);

/** The step whose panel is open; `null` when the plan has the room. */
export const step = signal<Step | null>('shell');
export const sheet = signal<Sheet>(null);
export const notice = signal<Notice | null>(null);
export const trouble = signal<Trouble | null>(null);

/** The planner keeps stopping and was left dead; the work is offered as a file. */
export const stopped = signal(false);

/** What lights up on the plan. */
export const highlight = signal<Highlight>('none');

/** Whether two things that may light up are the same. */
export const sameLight = (a: Highlight, b: Highlight): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Lights something up, and puts that out again where nothing else has been lit since. */
export const light = (it: Highlight): void => void (highlight.value = it);
export function dim(it: Highlight): void {
  if (sameLight(highlight.value, it)) highlight.value = 'none';
}
/** How many more clearances of each group are listed than at first. */
export const moreClearances = signal(0);
/** The clearance and the quantity that are opened in the ledger. */
export const openedClearance = signal<number | null>(null);
export const openedQuantity = signal<string | null>(null);
/** The feature whose card is to be opened, by its id. */
export const chosenFeature = signal<string | null>(null);
/** The side of the lot whose card is open, by its course. */
export const chosenSide = signal<number | null>(null);
/** The next tap on a side of the lot says that it lies on the street. */
export const askingStreet = signal(false);
export const snapping = signal(true);
/** What a hand is dragging on the plan. */
export const held = signal<DragTarget | null>(null);
/** A drag is under way: the ledger moves, the forms wait. */
export const gesturing = computed(() => held.value !== null);
/** What is being drawn on the plan. */
export interface Drawing {
  prompt: string;
  wanted: Wanted;
  drawn: Drawn | null;
  /** Why the last step was not taken. */
  word: string;
  /** Where the hand is, before it is led anywhere. */
  hand: Point;
}

export const drawing = signal<Drawing | null>(null);
/** The shape being changed: what the core is asked for, and what it says. */
export const shaping = signal<{ target: ShapeTarget; shaped: Shaped } | null>(null);
/** Spoken to those who do not see the plan. */
export const announce = signal('');
/** The bottom sheet of a small screen is drawn up. */
export const ledgerUp = signal(false);
/** Everything the page needs is kept on the device. */
export const offlineReady = signal(false);

/** A part of what is known that stays the same object for as long as it says the same: a drag moves the
    ledger every frame, and only what shows a change should be rendered again. */
function steady<T>(pick: () => T): ReadonlySignal<T> {
  let last: { value: T; text: string } | undefined;
  return computed(() => {
    const value = pick();
    const text = JSON.stringify(value);
    if (last?.text !== text) last = { value, text };
    return last.value;
  });
}

/** What to look out for, gravest first. */
export const findings = computed(() => ledger.value?.findings ?? []);

export const display = computed(() => ledger.value?.display ?? 'feet');

/** The job's name, note and history. */
export const job = steady(() => {
  const now = ledger.value;
  return now && { name: now.name, note: now.note, undo: now.undo, redo: now.redo };
});

/** The shell without its place, which the plan shows. */
export const standing = steady(() => {
  const shell = ledger.value?.shell;
  if (!shell) return null;
  const { at: _, ...rest } = shell;
  return rest;
});

export type Standing = NonNullable<typeof standing.value>;

/** What the page says of the plan in words; it waits while the shell is moving. */
export const planWords = computed<string>((): string => {
  if (drawing.value) return phrase('Plan of the lot. {prompt}: arrows move the cross, Enter places a point.', { prompt: drawing.value.prompt });
  if (gesturing.value) {
    return shaping.value ? phrase('Plan of the lot. A shape is being changed.') : phrase('Plan of the lot. The shell is being moved.');
  }
  const now = ledger.value;
  const shell = now?.shell;
  const stands = shell ? phrase('{shell}, bearing {heading}.', { shell: shell.name, heading: shell.heading.text }) : phrase('No shell yet.');
  return phrase('Plan of the lot. {stands} {verdict}', { stands, verdict: heard(now?.verdict.text ?? '') });
});

export const snapped = computed(() => ledger.value?.snap ?? null);
