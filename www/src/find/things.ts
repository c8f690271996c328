// Everything that can be found by its name: what can be done, where it is entered, what stands on the lot, every figure
// and every clearance.
import { openFigure, showClearance } from '../band/figures.ts';
import { chooseIncoming } from '../bring/incoming.ts';
import { ask } from '../core/planner.ts';
import type { System } from '../core/types.ts';
import { beginGuide } from '../guide/Guide.tsx';
import { saveFile } from '../job/files.ts';
import { fitPlan, toggleSnap, turn, zoomIn, zoomOut } from '../plan/keys.ts';
import { ledgerFolded } from '../state/arrangement.ts';
import { openSteps } from '../job/StepList.tsx';
import { toggleLock } from '../plan/lock.ts';
import { openNumbers } from '../plan/press.ts';
import { startTape } from '../plan/tapes.ts';
import { openSun } from '../sun/open.ts';
import { openWay } from '../way/WayDoor.tsx';
import { editOrTell, redo, undo } from '../state/actions.ts';
import { tally } from '../state/quantities.ts';
import { chosenFeature, chosenSide, sheet, site, step, type Sheet, type Step } from '../state/store.ts';
import { HEADS } from '../steps/StepPanel.tsx';
import { labelOf, sidesOf } from '../steps/yard/forms.ts';
import type { Thing } from './matching.ts';

const lay = (wanted: Sheet) => () => void (sheet.value = wanted);
const units = (system: System) => () => editOrTell({ 'set-display': system }, 'The units were not changed.');

const ACTIONS: [string, () => void][] = [
  ['Undo', undo],
  ['Redo', redo],
  ['Flip the shell', () => editOrTell('flip-shell', 'The shell was not flipped.')],
  ['Line up with the nearest wall or line', () => editOrTell('align-shell', 'The shell was not lined up.')],
  ['Turn the shell 1° to the left', () => turn(-1, false)],
  ['Turn the shell 1° to the right', () => turn(1, false)],
  ['Snapping on or off', toggleSnap],
  ['Stretch a tape between two things', startTape],
  ['Lock or unlock the plan', toggleLock],
  ['Exact numbers of the shell', openNumbers],
  ['All steps, to go to any of them', openSteps],
  ['Show the whole lot', fitPlan],
  ['Zoom in', zoomIn],
  ['Zoom out', zoomOut],
  ['Show in feet', units('feet')],
  ['Show in meters', units('metres')],
  ['Save the site file', saveFile],
  ['Bring in a map, list or survey', chooseIncoming],
  ['Write a map, list or survey', lay('write-out')],
  ['Report', lay('report')],
  ['The company’s book', lay('book')],
  ['Stakes and levels', lay('stakes')],
  ['Photographs of the yard', lay('photographs')],
  ['Sheets to print', lay('paper')],
  ['Homeowner’s view', lay('shown')],
  ['To send to the homeowner: picture, PDF page, 3D page', lay('send')],
  ['Way in and crane', openWay],
  ['Sun on the water', openSun],
  ['Takeoff and cost', lay('takeoff')],
  ['Compare placements', lay('compare')],
  ['In the round: the job in three dimensions', lay('round')],
  ['Pin figures', lay('figures')],
  ['Fold or show the ledger', () => (ledgerFolded.value = !ledgerFolded.value)],
  ['Start or open another job', lay('welcome')],
  ['First site with hints', beginGuide],
  ['Keys and gestures', lay('keys')],
  ['Sources and licenses', lay('sources')],
];

/** All there is now. */
export function everything(): Thing[] {
  const steps = (Object.keys(HEADS) as Step[]).map((name): Thing => ({ name: HEADS[name], aside: 'Step', does: open(name) }));
  const actions = ACTIONS.map(([name, does]): Thing => ({ name, aside: 'Do it', does }));
  const lot = site.value ? sidesOf(site.value.lot) : [];
  const sides = lot.map(({ text, value }): Thing => ({ name: text, aside: 'Lot', does: side(Number(value)) }));
  const features = (site.value?.features ?? []).map((it): Thing => ({ name: labelOf(it), aside: 'Yard', does: feature(it.id) }));
  const quantities = (tally.value?.quantities ?? []).map(
    (it): Thing => ({ name: it.label, aside: it.shown.text, does: () => openFigure(it.key) }),
  );
  const clearances = ask((p) => p.clearances(), []).map(
    (it): Thing => ({ name: `${it.name}: ${it.from} to ${it.target}`, aside: it.distance.text, does: () => showClearance(it.index) }),
  );
  return [...actions, ...steps, ...quantities, ...clearances, ...features, ...sides];
}

const open = (name: Step) => () => void (step.value = name);

const side = (course: number) => () => {
  step.value = 'lot';
  chosenSide.value = course;
};

const feature = (id: string) => () => {
  step.value = 'yard';
  chosenFeature.value = id;
};
