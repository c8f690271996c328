// What hands and keys do on the plan.
import { DRAWING_KEYS } from '../plan/drawing.ts';
import { PLAN_KEYS } from '../plan/keys.ts';
import { SHAPE_KEYS } from '../plan/shape.ts';
import { sheet } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';
import { Sheet } from './Sheet.tsx';

const HANDS: [English, English][] = [
  [english('Drag the shell'), english('moves it; with Alt, snapping is the other way round')],
  [english('Drag its handle'), english('turns it by whole degrees; freely far out, or with Alt')],
  [english('Press for half a second, or the right button'), english('opens the exact numbers of what lies there')],
  [english('Drag bare ground'), english('moves the view')],
  [english('Two fingers, or the wheel'), english('zoom')],
  [english('Slide a finger while drawing'), english('the cross stands above it; lifting places the point')],
  [english('Click or tap a thing'), english('says what it is')],
  [english('A pin of a photograph'), english('a tap opens it, a drag moves it; arrows move it, [ and ] turn it')],
  [english('A pen'), english('while it is there, fingers and palm are left out')],
];
const ANYWHERE: [English, English][] = [
  [english('Ctrl or ⌘ + Z'), english('undo')],
  [english('Shift + Ctrl or ⌘ + Z'), english('redo')],
  [english('/'), english('find an action, a thing or a figure by its name')],
  [english('Enter in a field'), english('takes the value')],
  [english('Esc in a field'), english('puts back what was there')],
];

export function KeysSheet() {
  const close = () => (sheet.value = null);
  return (
    <Sheet label={phrase('Keys and gestures')} class="keys" close={close}>
      <h2>{phrase('Keys and gestures')}</h2>
      <Rows head={phrase('On the plan, by hand')} rows={HANDS} />
      <Rows head={phrase('On the plan, by keys')} rows={PLAN_KEYS} />
      <Rows head={phrase('While something is drawn')} rows={DRAWING_KEYS} />
      <Rows head={phrase('While a shape is changed')} rows={SHAPE_KEYS} />
      <Rows head={phrase('Anywhere')} rows={ANYWHERE} />
      <div class="buttons">
        <button type="button" class="main" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </Sheet>
  );
}

function Rows({ head, rows }: { head: string; rows: [English, English][] }) {
  return (
    <>
      <h3>{head}</h3>
      <dl class="key-list">
        {rows.map(([key, does]) => (
          <div key={phrase(key)}>
            <dt>{phrase(key)}</dt>
            <dd>{phrase(does)}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}
