// Which figures stand in the band.
import { Sheet } from '../job/Sheet.tsx';
import { MOST_PINS, pins } from '../state/arrangement.ts';
import { tally } from '../state/quantities.ts';
import { sheet } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';

const close = (): void => void (sheet.value = null);

export function PinSheet() {
  const { groups = [], quantities = [] } = tally.value ?? {};
  const full = pins.value.length >= MOST_PINS;
  return (
    <Sheet label={phrase('Figures in the band')} class="pins" close={close}>
      <h2>{phrase('Figures in the band')}</h2>
      <p>{phrase('They stay in sight whatever is open. Up to {number} find room.', { number: MOST_PINS })}</p>
      <div class="pins-groups">
        <fieldset>
          <legend>{phrase('Placement')}</legend>
          <Pin name="least-room" label={phrase('Least room')} full={full} />
          <Pin name="cost" label={phrase('Priced subtotal')} full={full} />
        </fieldset>
        {groups.map(({ group, label }) => (
          <fieldset key={group}>
            <legend>{heard(label)}</legend>
            {quantities
              .filter((it) => it.group === group)
              .map((it) => (
                <Pin key={it.key} name={it.key} label={heard(it.label)} full={full} />
              ))}
          </fieldset>
        ))}
      </div>
      <div class="buttons">
        <button type="button" class="main" onClick={close}>
          {phrase('Done')}
        </button>
      </div>
    </Sheet>
  );
}

function Pin({ name, label, full }: { name: string; label: string; full: boolean }) {
  const pinned = pins.value.includes(name);
  const put = () => (pins.value = pinned ? pins.value.filter((it) => it !== name) : [...pins.value, name]);
  return (
    <label class="pin">
      <input type="checkbox" checked={pinned} disabled={full && !pinned} onChange={put} />
      {label}
    </label>
  );
}
