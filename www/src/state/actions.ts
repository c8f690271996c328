// What the user can do to the job. Each asks the core, then takes over what the core now says.
import { batch } from '@preact/signals';
import { aside, ask, good, keepGood, startOver, startPlanner, type Revival } from '../core/planner.ts';
import type { Command, Finding, Outcome } from '../core/types.ts';
import { askForFrame } from '../plan/frame.ts';
import { back, giveUpDrawing } from '../plan/pick.ts';
import { takeShape } from '../plan/shape.ts';
import { fitSoon } from '../plan/view.ts';
import { followPicture, forgetPicture } from '../picture/shown.ts';
import { bareText, forgetText } from './document.ts';
import { forgetQuantities, takeTally } from './quantities.ts';
import { keepWork, keptWork } from './keep.ts';
import { sharing } from './sharing.ts';
import { catalogue, drawing, gesturing, held, ledger, ledgerUp, notice, sheet, site, step, stopped, trouble, type Notice } from './store.ts';

const NOTHING_DONE: Outcome = { ok: false, findings: [] };

/** Takes over what the core says now. */
export function takeOver(): void {
  const before = ledger.value?.revision;
  batch(() => {
    ledger.value = ask((p) => sharing(ledger.value, p.ledger()), ledger.value);
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

/** Keeps the document on the device; called once it has been computed and painted. */
export function keep(): void {
  const text = bareText();
  const picture = followPicture();
  const before = good();
  if (!text || (text === before.text && picture === before.picture)) return;
  keepGood({ text, picture });
  void keepWork(text, picture === before.picture && before.text !== '' ? undefined : picture);
}

/** Tells the user something in a sentence. */
export function say(text: string, kind: Notice['kind'] = 'plain'): void {
  notice.value = { text, kind };
}

/** Makes one undoable edit. Gives the findings when the core would not have it. */
export function edit(command: Command): Finding[] {
  const outcome = ask((p) => p.apply(command), NOTHING_DONE);
  refresh();
  return outcome.ok ? [] : outcome.findings;
}

/** Makes an edit from a button: what bars it is told in the panel of findings. */
export function editOrTell(command: Command, title: string): boolean {
  const findings = edit(command);
  if (findings.length > 0) trouble.value = { title, findings };
  return findings.length === 0;
}

export function undo(): void {
  // While something is drawn, its points are taken back.
  if (drawing.value) return back();
  const label = ledger.value?.undo;
  if (ask((p) => p.undo(), false)) say(`Undone: ${label ?? 'the last step'}`);
  refresh();
}

export function redo(): void {
  const label = ledger.value?.redo;
  if (ask((p) => p.redo(), false)) say(`Done again: ${label ?? 'the next step'}`);
  refresh();
}

/** Opens a site file. When it cannot be opened the open work stays and the findings are shown. */
export function openText(text: string, called: string): boolean {
  giveUpDrawing();
  const outcome = ask((p) => p.open(text), NOTHING_DONE);
  const stopping = outcome.findings.filter((finding) => finding.severity === 'fault');
  if (!outcome.ok) {
    trouble.value = { title: `${called} was not opened. Your open work is as it was.`, findings: outcome.findings };
    return false;
  }
  batch(() => {
    trouble.value = stopping.length > 0 ? { title: `${called} was opened, with faults.`, findings: stopping } : null;
    sheet.value = null;
    fitSoon();
    refresh();
    giveRoom();
  });
  return true;
}

/** Opens the step that comes next, or gives the plan the room once a shell stands on it. */
function giveRoom(): void {
  ledgerUp.value = false;
  step.value = ledger.value?.shell ? null : 'shell';
}

/** Leaves the open job for an empty lot. */
export function startBlank(): void {
  const blank = aside((p) => p.save(), '');
  if (blank) openText(blank, 'A blank lot');
}

/** Starts the planner, brings back the work that was open, or shows the first sheet. */
export async function begin(): Promise<void> {
  await startPlanner(revived);
  const kept = await keptWork();
  let restored = false;
  if (kept) {
    restored = ask((p) => p.open_kept(kept.text, kept.picture), NOTHING_DONE).ok;
    if (!restored) say('The work kept on this device could not be reopened.', 'bad');
  }
  catalogue.value = ask((p) => p.catalogue(), []);
  if (!restored) sheet.value = 'welcome';
  refresh();
  giveRoom();
}

function revived(how: Revival): void {
  held.value = null;
  forgetText();
  forgetQuantities();
  giveUpDrawing();
  stopped.value = how === 'dead';
  if (how === 'dead') return;
  site.value = null;
  forgetPicture();
  say(
    how === 'reopened'
      ? 'The planner had to restart. Your work is open again as it was after the last good step.'
      : 'The planner had to restart on a blank lot. Open a file to go on.',
    'bad',
  );
  refresh();
}

/** Goes on with a blank lot after the planner kept stopping. */
export function goOnBlank(): void {
  void startOver();
}
