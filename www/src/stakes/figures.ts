// The stakeout as the core tells it, and the edits of it.
import { computed } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { Finding, StakeoutEdit, StakeoutFigures, StakeoutRecord } from '../core/types.ts';
import { edit, editOrTell } from '../state/actions.ts';
import { gesturing, ledger } from '../state/store.ts';

/** Everything that is laid out and read back; it waits while something is dragged. */
export const stakeout = computed<StakeoutFigures | undefined>(() => {
  void ledger.value?.revision;
  void ledger.value?.display;
  return gesturing.value ? undefined : ask((p) => p.stakeout(), undefined);
});

/** How the work is staked. */
export const record = computed<StakeoutRecord | undefined>(() => {
  void ledger.value?.revision;
  return ask((p) => p.stakeout_record(), undefined);
});

/** Edits it; the findings where it was refused. */
export const stake = (change: StakeoutEdit): Finding[] => edit({ stakeout: change });

/** Edits it, and tells where it was refused. */
export const stakeOrTell = (change: StakeoutEdit, title: string): boolean => editOrTell({ stakeout: change }, title);

/** Sets members of the record. */
export function setRecord(change: Partial<StakeoutRecord>): Finding[] {
  const now = record.peek();
  return now ? stake({ set: { ...now, ...change } }) : [];
}
