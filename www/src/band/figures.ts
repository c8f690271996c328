// The figures of the band as the core tells them, and what a tap on one leads to.
import { effect, signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { BandFigure } from '../core/types.ts';
import { ledgerFolded, openGroups, pins } from '../state/arrangement.ts';
import { tally } from '../state/quantities.ts';
import { takeOver } from '../state/refresh.ts';
import { sharing } from '../state/sharing.ts';
import { ledger, ledgerUp, openedClearance, openedQuantity, sheet, step } from '../state/store.ts';

export const figures = signal<BandFigure[]>([]);

// Whatever changes a figure changes the quantities or the ledger.
effect(() => {
  void [ledger.value, tally.value];
  const wanted = pins.value;
  figures.value = ask((p) => sharing(figures.peek(), p.band(wanted)), figures.peek());
});

/** Brings the ledger on the screen, wherever it went. */
export function showLedger(): void {
  ledgerFolded.value = false;
  if (narrow()) step.value = null;
  ledgerUp.value = true;
}

/** Open step and ledger take turns there. */
const narrow = (): boolean => window.matchMedia('(max-width: 719px)').matches;

/** Shows where a figure comes from. */
export function openFigure(key: string): void {
  if (key === 'cost') {
    sheet.value = 'takeoff';
    return;
  }
  showLedger();
  const group = tally.value?.quantities.find((it) => it.key === key)?.group;
  if (group === undefined) {
    const first = ledger.value?.clearances[0]?.rows[0];
    if (first) showClearance(first.index);
    return;
  }
  if (!openGroups.value.includes(group)) openGroups.value = [...openGroups.value, group];
  openedQuantity.value = key;
  lookAt(`.quantity[data-key='${key}']`);
}

/** Opens a clearance in the ledger. */
export function showClearance(index: number): void {
  showLedger();
  openedClearance.value = index;
  takeOver();
  lookAt(`.clearance[data-index='${index}']`);
}

/** What was asked for, once the page has it. */
function lookAt(row: string): void {
  requestAnimationFrame(() => {
    const it = document.querySelector<HTMLElement>(row);
    it?.scrollIntoView({ block: 'center' });
    it?.focus({ preventScroll: true });
  });
}
