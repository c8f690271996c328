// The takeoff, line by line. Each opens its working in place.
import { signal } from '@preact/signals';
import { ask } from '../door/planner.ts';
import type { Finding, Quantity } from '../door/shapes.ts';
import { highlight } from '../state/store.ts';
import { Cautions, type Place } from './Cautions.tsx';
import { Working } from './Working.tsx';

const GROUPS: Record<string, string> = {
  dig: 'Dig',
  grading: 'Grading',
  haul: 'Haul',
  stone: 'Stone',
  concrete: 'Concrete',
  'rods-and-forms': 'Rods and forms',
  pipe: 'Pipe',
  water: 'Water',
};

const isPlace = (group: string): group is Place => ['dig', 'haul', 'concrete', 'water'].includes(group);

const opened = signal<string | null>(null);

interface Props {
  quantities: Quantity[];
  revision: number;
  findings: Finding[];
}

export function Quantities({ quantities, revision, findings }: Props) {
  const groups = [...new Set(quantities.map((quantity) => quantity.group))];
  return (
    <section class="quantities" aria-labelledby="quantities-head">
      <h3 id="quantities-head">
        Quantities <span class="head-aside">tap for the working</span>
      </h3>
      {quantities.length === 0 && <p class="nothing-yet">With a shell on the lot, dig, spoil and stone are listed here.</p>}
      {groups.map((group) => (
        <div key={group} class="quantity-group" data-group={group}>
          <h4>{GROUPS[group] ?? group}</h4>
          {isPlace(group) && <Cautions findings={findings} place={group} />}
          <ul>
            {quantities
              .filter((quantity) => quantity.group === group)
              .map((quantity) => (
                <Row key={quantity.key} quantity={quantity} revision={revision} />
              ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

function Row({ quantity, revision }: { quantity: Quantity; revision: number }) {
  const { key, label, shown, caveats } = quantity;
  const open = opened.value === key;
  const lightKey = `quantity:${key}`;
  const light = () => (highlight.value = lightKey);
  const dim = () => {
    if (highlight.value === lightKey) highlight.value = '';
  };
  return (
    <li>
      <button
        type="button"
        class="quantity"
        data-key={key}
        aria-expanded={open}
        onClick={() => (opened.value = open ? null : key)}
        onFocus={light}
        onBlur={dim}
        onPointerEnter={light}
        onPointerLeave={(event) => event.pointerType === 'mouse' && dim()}
      >
        <span class="quantity-label">{label}</span>
        <span class="leader" aria-hidden="true" />
        <span class="quantity-value">{shown.text}</span>
        {caveats.length > 0 && <span class="row-caveats">(?) {caveats.join(', ')}</span>}
      </button>
      {open && <OpenWorking quantityKey={key} revision={revision} />}
    </li>
  );
}

/** `revision` is what makes it ask again after a change. */
function OpenWorking({ quantityKey }: { quantityKey: string; revision: number }) {
  const workings = ask((p) => p.workings(quantityKey), undefined);
  return workings ? <Working workings={workings} /> : null;
}
