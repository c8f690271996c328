// What hands and keys do on the plan.
import { DRAWING_KEYS } from '../plan/drawing.ts';
import { PLAN_KEYS } from '../plan/keys.ts';
import { SHAPE_KEYS } from '../plan/shape.ts';
import { sheet } from '../state/store.ts';
import { Sheet } from './Sheet.tsx';

const HANDS: [string, string][] = [
  ['Drag the shell', 'moves it; with Alt, snapping is the other way round'],
  ['Drag its handle', 'turns it by whole degrees; freely far out, or with Alt'],
  ['Press for half a second, or the right button', 'opens the exact numbers of what lies there'],
  ['Drag bare ground', 'moves the view'],
  ['Two fingers, or the wheel', 'zoom'],
  ['Slide a finger while drawing', 'the cross stands above it; lifting places the point'],
  ['Click or tap a thing', 'says what it is'],
  ['A pin of a photograph', 'a tap opens it, a drag moves it; arrows move it, [ and ] turn it'],
  ['A pen', 'while it is there, fingers and palm are left out'],
];
const ANYWHERE: [string, string][] = [
  ['Ctrl or ⌘ + Z', 'undo'],
  ['Shift + Ctrl or ⌘ + Z', 'redo'],
  ['/', 'find an action, a thing or a figure by its name'],
  ['Enter in a field', 'takes the value'],
  ['Esc in a field', 'puts back what was there'],
];

export function KeysSheet() {
  const close = () => (sheet.value = null);
  return (
    <Sheet label="Keys and gestures" class="keys" close={close}>
      <h2>Keys and gestures</h2>
      <Rows head="On the plan, by hand" rows={HANDS} />
      <Rows head="On the plan, by keys" rows={PLAN_KEYS} />
      <Rows head="While something is drawn" rows={DRAWING_KEYS} />
      <Rows head="While a shape is changed" rows={SHAPE_KEYS} />
      <Rows head="Anywhere" rows={ANYWHERE} />
      <div class="buttons">
        <button type="button" class="main" onClick={close}>
          Close
        </button>
      </div>
    </Sheet>
  );
}

function Rows({ head, rows }: { head: string; rows: [string, string][] }) {
  return (
    <>
      <h3>{head}</h3>
      <dl class="key-list">
        {rows.map(([key, does]) => (
          <div key={key}>
            <dt>{key}</dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}
