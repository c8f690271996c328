// Everything that can be found by its name: what can be done, where it is entered, what stands on the lot, every figure
// and every clearance.
import { openFigure, showClearance } from '../band/figures.ts';
import { chooseIncoming } from '../bring/incoming.ts';
import { ask } from '../core/planner.ts';
import type { System } from '../core/types.ts';
import { beginGuide } from '../guide/Guide.tsx';
import { saveFile } from '../job/files.ts';
import { speak } from '../job/speak.ts';
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
import { LANGUAGES } from '../words/language.ts';
import { english, heard, inEnglish, phrase, type English } from '../words/words.ts';
import type { Thing } from './matching.ts';

const lay = (wanted: Sheet) => () => void (sheet.value = wanted);
const units = (system: System) => () => editOrTell({ 'set-display': system }, phrase('The units were not changed.'));

const ACTIONS: [English, () => void][] = [
  [english('Undo'), undo],
  [english('Redo'), redo],
  [english('Flip the shell'), () => editOrTell('flip-shell', phrase('The shell was not flipped.'))],
  [english('Line up with the nearest wall or line'), () => editOrTell('align-shell', phrase('The shell was not lined up.'))],
  [english('Turn the shell 1° to the left'), () => turn(-1, false)],
  [english('Turn the shell 1° to the right'), () => turn(1, false)],
  [english('Snapping on or off'), toggleSnap],
  [english('Stretch a tape between two things'), startTape],
  [english('Lock or unlock the plan'), toggleLock],
  [english('Exact numbers of the shell'), openNumbers],
  [english('All steps, to go to any of them'), openSteps],
  [english('Show the whole lot'), fitPlan],
  [english('Zoom in'), zoomIn],
  [english('Zoom out'), zoomOut],
  [english('Show in feet'), units('feet')],
  [english('Show in meters'), units('metres')],
  [english('Save the site file'), saveFile],
  [english('Bring in a map, list or survey'), chooseIncoming],
  [english('Write a map, list or survey'), lay('write-out')],
  [english('Report'), lay('report')],
  [english('The company’s book'), lay('book')],
  [english('Stakes and levels'), lay('stakes')],
  [english('Photographs of the yard'), lay('photographs')],
  [english('Sheets to print'), lay('paper')],
  [english('Homeowner’s view'), lay('shown')],
  [english('To send to the homeowner: picture, PDF page, 3D page'), lay('send')],
  [english('Way in and crane'), openWay],
  [english('Sun on the water'), openSun],
  [english('Takeoff and cost'), lay('takeoff')],
  [english('Compare placements'), lay('compare')],
  [english('In the round: the job in three dimensions'), lay('round')],
  [english('Pin figures'), lay('figures')],
  [english('Fold or show the ledger'), () => (ledgerFolded.value = !ledgerFolded.value)],
  [english('Start or open another job'), lay('welcome')],
  [english('First site with hints'), beginGuide],
  [english('Keys and gestures'), lay('keys')],
  [english('Sources and licenses'), lay('sources')],
];

/** All there is now. */
export function everything(): Thing[] {
  const steps = (Object.keys(HEADS) as Step[]).map((name) => action(HEADS[name], phrase('Step'), open(name)));
  const actions = ACTIONS.map(([name, does]) => action(name, phrase('Do it'), does));
  const languages = LANGUAGES.map(
    ({ value, text }): Thing => ({ name: text, also: 'language idioma', aside: phrase('Do it'), does: () => void speak(value) }),
  );
  const lot = site.value ? sidesOf(site.value.lot) : [];
  const sides = lot.map(({ text, value }): Thing => ({ name: text, aside: phrase('Lot'), does: side(Number(value)) }));
  const features = (site.value?.features ?? []).map((it): Thing => ({ name: labelOf(it), aside: phrase('Yard'), does: feature(it.id) }));
  const quantities = (tally.value?.quantities ?? []).map(
    (it): Thing => ({ name: heard(it.label), also: it.label, aside: it.shown.text, does: () => openFigure(it.key) }),
  );
  const clearances = ask((p) => p.clearances(), []).map(
    (it): Thing => ({
      name: phrase('{rule}: {from} to {target}', { rule: heard(it.name), from: heard(it.from), target: heard(it.target) }),
      also: `${it.name} ${it.from} ${it.target}`,
      aside: it.distance.text,
      does: () => showClearance(it.index),
    }),
  );
  return [...actions, ...languages, ...steps, ...quantities, ...clearances, ...features, ...sides];
}

/** Found by its English words as well. */
const action = (name: English, aside: string, does: () => void): Thing => ({ name: phrase(name), also: inEnglish(name), aside, does });

const open = (name: Step) => () => void (step.value = name);

const side = (course: number) => () => {
  step.value = 'lot';
  chosenSide.value = course;
};

const feature = (id: string) => () => {
  step.value = 'yard';
  chosenFeature.value = id;
};
