// The estimate beside the plan: its desk is given the planner's site after each edit and the shell's place in
// each frame of a drag, and what it says stands in the ledger.
import { computed, signal } from '@preact/signals';
import { askDesk, startDesk, type Arrival } from '../door/estimate.ts';
import { ask } from '../door/planner.ts';
import type { Finding, Ledger } from '../door/shapes.ts';
import type { Desk, Tally } from '../door/tally.ts';
import { askForFrame } from '../plan/frame.ts';
import { bareText } from './document.ts';
import { held, ledger } from './store.ts';

/** How it stands with the quantities: not there yet, there, not to be had for this site, or not to be had at all. */
export type Standing = { how: 'coming' | 'failed' } | { how: 'refused'; why: Finding[] } | ({ how: 'there' } & Tally);

export const tally = signal<Standing>({ how: 'coming' });

/** The lines that have a low and a high when nothing moves. */
export const ranged = signal<ReadonlySet<string>>(new Set());

const GRAVITY: Record<Finding['severity'], number> = { fault: 0, caution: 1, note: 2 };
const same = (a: Finding, b: Finding): boolean => a.check === b.check && a.place === b.place && a.message === b.message;

/** What to look out for, by planner and estimate together: gravest first, nothing twice. */
export function together(plan: Finding[], estimate: Finding[]): Finding[] {
  const all = [...plan, ...estimate];
  const once = all.filter((finding, index) => all.findIndex((other) => same(finding, other)) === index);
  return once.sort((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity]);
}

/** Whether the desk can be asked: what shows its answers is rendered anew when that changes. */
export const deskThere = computed(() => tally.value.how === 'there');

/** What the desk answers while something is rendered; `otherwise` until it is there. */
export function told<T>(call: (desk: Desk) => T, otherwise: T): T {
  return deskThere.value ? askDesk(call, otherwise) : otherwise;
}

export const findings = computed(() => {
  const estimate = tally.value.how === 'there' ? tally.value.findings : [];
  return together(ledger.value?.findings ?? [], estimate);
});

/** While something other than the shell is dragged, the whole site is handed over at most this often, milliseconds. */
const BETWEEN = 120;

/** The planner's revision that the desk stands at. */
let inStep = -1;
/** The desk followed a drag and has left out what takes long. */
let inPassing = false;
let handedOver = 0;
let waiting: ReturnType<typeof setTimeout> | undefined;
let begun = false;

/** Has the estimate loaded, once the plan is on the screen. */
export function beginEstimate(): void {
  if (begun) return;
  begun = true;
  startDesk(arrived);
}

/** Tries once more to have it, where that failed. */
export function tryEstimateAgain(): void {
  tally.value = { how: 'coming' };
  startDesk(arrived);
}

/** Whatever the desk holds is of another planner. */
export function forgetEstimate(): void {
  inStep = -1;
}

function arrived(how: Arrival): void {
  inStep = -1;
  if (how === 'failed') {
    tally.value = { how };
    return;
  }
  followPlan();
  askForFrame();
}

/** Brings the desk in step with the planner, and takes over what it says. */
export function followPlan(): void {
  const now = ledger.value;
  if (!now || !begun || tally.value.how === 'failed') return;
  const rests = inPassing && held.value === null;
  if ((now.revision === inStep && !rests) || putOff()) return;
  const said = askDesk((desk) => broughtTo(desk, now), null);
  inStep = now.revision;
  if (said) tally.value = said;
  else if (tally.value.how === 'there') tally.value = { how: 'coming' };
}

/** The shell's place alone follows the hand in every frame; of anything else dragged the desk is told less often. */
const shellHeld = (): boolean => held.value === 'shell' || held.value === 'turn';

function putOff(): boolean {
  if (held.value === null || shellHeld()) return false;
  const left = handedOver + BETWEEN - performance.now();
  if (left <= 0) return false;
  waiting ??= setTimeout(() => {
    waiting = undefined;
    followPlan();
    askForFrame();
  }, left);
  return true;
}

function broughtTo(desk: Desk, now: Ledger): Standing {
  const placed = inStep !== -1 && shellHeld() && moved(desk, now);
  if (!placed) {
    const { ok, findings: why } = desk.open(bareText());
    handedOver = performance.now();
    if (!ok) return { how: 'refused', why };
  }
  const said = desk.tally();
  if (!said) return { how: 'coming' };
  inPassing = said.in_passing;
  if (!inPassing) {
    const keys = said.quantities.filter((it) => it.range).map((it) => it.key);
    if (keys.join() !== [...ranged.value].join()) ranged.value = new Set(keys);
  }
  return { how: 'there', ...said };
}

/** Moves the shell on the desk as it stands on the plan, and hands over the plan's cut. */
function moved(desk: Desk, { shell }: Ledger): boolean {
  if (shell === null) return false;
  const cut = ask((planner) => planner.cut(), undefined);
  return desk.place(...shell.at, shell.heading_value, shell.mirrored, shell.coping_value, cut).ok;
}
