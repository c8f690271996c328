// What the page knows, as signals. Everything about the job comes from the core and is replaced whole;
// the rest is where the user is on the page.
import { computed, signal } from '@preact/signals';
import type { Site } from '../door/records.ts';
import type { Finding, Ledger, ShellCard } from '../door/shapes.ts';

export const STEPS = ['lot', 'ground', 'shell', 'dig'] as const;
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

export type Sheet = 'welcome' | 'report' | 'keys' | null;

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

/** What lights up on the plan: `clearance:3`, `quantity:base-stone` or nothing. */
export const highlight = signal('');
export const snapping = signal(true);
/** A drag is under way: the ledger moves, the forms wait. */
export const gesturing = signal(false);
/** The bottom sheet of a small screen is drawn up. */
export const ledgerUp = signal(false);
/** Everything the page needs is kept on the device. */
export const offlineReady = signal(false);

export const display = computed(() => ledger.value?.display ?? 'feet');
