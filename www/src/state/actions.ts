// What the user can do to the job. Each asks the core, then takes over what the core now says.
import { ask, good, keepGood, startOver, startPlanner, type Revival } from '../core/planner.ts';
import type { Command, Finding, Outcome } from '../core/types.ts';
import { abandon, changed, historyOf, watchAgain } from '../jobs/desk.ts';
import { beginJobs } from '../jobs/open.ts';
import { followPicture, forgetPicture } from '../picture/shown.ts';
import { back, giveUpDrawing } from '../plan/pick.ts';
import { heard, phrase } from '../words/words.ts';
import { bareText, forgetText } from './document.ts';
import { forgetQuantities } from './quantities.ts';
import { refresh, say } from './refresh.ts';
import { drawing, held, ledger, site, stopped, trouble } from './store.ts';

export { openText, startBlank } from '../jobs/open.ts';
export { refresh, say, takeOver } from './refresh.ts';

const NOTHING_DONE: Outcome = { ok: false, findings: [] };

/** Keeps the document: for a restart of the core, and on the device. Called once it has been computed and painted. */
export function keep(): void {
  const text = bareText();
  const picture = followPicture();
  if (!text) return;
  keepGood({ text, picture });
  changed({ text, picture, at: ledger.value?.revision ?? -1 });
}

/** Makes one undoable edit. Gives the findings when the core would not have it. */
export function edit(command: Command): Finding[] {
  const outcome = ask((p) => p.apply(command), NOTHING_DONE);
  const tapes = ledger.value?.tapes.length ?? 0;
  refresh();
  if ((ledger.value?.tapes.length ?? 0) < tapes && !(typeof command === 'object' && 'set-tapes' in command)) {
    say(phrase('A tape went with what it was held to. Undo brings both back.'));
  }
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
  if (ask((p) => p.undo(1), 0)) say(phrase('Undone: {step}', { step: label ? heard(label) : phrase('the last step') }));
  refresh();
}

export function redo(): void {
  const label = ledger.value?.redo;
  if (ask((p) => p.redo(1), 0)) say(phrase('Done again: {step}', { step: label ? heard(label) : phrase('the next step') }));
  refresh();
}

/** Goes so many steps back (or, below none, forward again) at once. */
export function goBack(steps: number): void {
  ask((p) => (steps < 0 ? p.redo(-steps) : p.undo(steps)), 0);
  refresh();
}

/** Starts the planner, brings back the job that was open, or shows the first sheet. */
export async function begin(): Promise<void> {
  await startPlanner(revived);
  await beginJobs();
}

function revived(how: Revival): void {
  held.value = null;
  forgetText();
  forgetQuantities();
  giveUpDrawing();
  stopped.value = how === 'dead';
  if (how === 'dead') return;
  const history = historyOf(good().text);
  if (how === 'reopened' && history !== '') ask((p) => p.restore_history(history), false);
  if (how === 'blank') abandon();
  else watchAgain();
  site.value = null;
  forgetPicture();
  say(
    how === 'reopened'
      ? phrase('The planner had to restart. Your work is open again as it was after the last good step.')
      : phrase('The planner had to restart on a blank lot. Open a file to go on.'),
    'bad',
  );
  refresh();
}

/** Goes on with a blank lot after the planner kept stopping. */
export function goOnBlank(): void {
  void startOver();
}
