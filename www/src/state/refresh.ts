// The page takes over what the core says now, and has it painted.
import { batch } from '@preact/signals';
import { ask } from '../core/planner.ts';
import { followPicture } from '../picture/shown.ts';
import { askForFrame } from '../plan/frame.ts';
import { takeShape } from '../plan/shape.ts';
import { takeTally } from './quantities.ts';
import { sharing } from './sharing.ts';
import { gesturing, ledger, moreClearances, notice, openedClearance, site, type Notice } from './store.ts';

/** Takes over what the core says now. */
export function takeOver(): void {
  const before = ledger.value?.revision;
  batch(() => {
    ledger.value = ask((p) => sharing(ledger.value, p.ledger(moreClearances.value, openedClearance.value)), ledger.value);
    takeTally();
    if (!gesturing.value && (ledger.value?.revision !== before || !site.value)) {
      site.value = ask((p) => p.settings(), site.value);
      followPicture();
    }
  });
}

/** Takes over what the core says now, and has the plan painted. */
export function refresh(): void {
  takeOver();
  takeShape();
  askForFrame();
}

/** Tells the user something in a sentence. */
export function say(text: string, kind: Notice['kind'] = 'plain'): void {
  notice.value = { text, kind };
}
