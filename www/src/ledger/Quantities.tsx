// The takeoff, line by line. Each opens its working in place. While the estimate is not there, that is said here:
// its cautions are never missing without a word.
import { signal } from '@preact/signals';
import { askDesk } from '../door/estimate.ts';
import type { Finding } from '../door/shapes.ts';
import type { Costs, Group, Quantity } from '../door/tally.ts';
import { ranged, tally, tryEstimateAgain } from '../state/estimate.ts';
import { highlight, sheet } from '../state/store.ts';
import { between } from '../takeoff/words.ts';
import { Cautions } from './Cautions.tsx';
import { Working } from './Working.tsx';

export const GROUPS: Record<Group, string> = {
  dig: 'Dig',
  grading: 'Grading',
  haul: 'Haul',
  stone: 'Stone',
  concrete: 'Concrete',
  'rods-and-forms': 'Rods and forms',
  pipe: 'Pipe',
  water: 'Water',
};

const opened = signal<string | null>(null);

interface Props {
  revision: number;
  findings: Finding[];
  placed: boolean;
}

export function Quantities({ revision, findings, placed }: Props) {
  const now = tally.value;
  const quantities = now.how === 'there' ? now.quantities : [];
  const groups = [...new Set(quantities.map((quantity) => quantity.group))];
  return (
    <section class="quantities" aria-labelledby="quantities-head" data-standing={now.how}>
      <h3 id="quantities-head">
        Quantities <span class="head-aside">tap for the working</span>
      </h3>
      {quantities.length > 0 && (
        <div class="quantities-doors">
          <button type="button" onClick={() => (sheet.value = 'takeoff')}>
            Takeoff and cost
          </button>
          <button type="button" onClick={() => (sheet.value = 'compare')}>
            Compare places
          </button>
        </div>
      )}
      {placed ? <NotYet /> : <p class="nothing-yet">With a shell on the lot, dig, spoil and stone are listed here.</p>}
      {groups.map((group) => (
        <div key={group} class="quantity-group" data-group={group}>
          <h4>{GROUPS[group]}</h4>
          <Cautions findings={findings} place={group} />
          <ul>
            {quantities
              .filter((quantity) => quantity.group === group)
              .map((quantity) => (
                <Row key={quantity.key} quantity={quantity} revision={revision} />
              ))}
          </ul>
        </div>
      ))}
      {now.how === 'there' && <Cautions findings={findings} place="cost" />}
      {now.how === 'there' && now.cost && <Total cost={now.cost} />}
    </section>
  );
}

/** Why nothing is listed although there is a shell. */
export function NotYet() {
  const now = tally.value;
  if (now.how === 'there') return null;
  if (now.how === 'coming') {
    return (
      <p class="nothing-yet" role="status">
        Dig, spoil and stone are being worked out, and the cautions that belong beside them.
      </p>
    );
  }
  return (
    <div class="cautions" role="alert">
      <p class="caution" data-severity="fault" data-check="no-estimate">
        <strong>Fault:</strong> {now.how === 'failed' ? NOT_LOADED : NOT_TAKEN} Nothing is listed here, and the cautions on
        the dig, on footings beside it, on spoil and on water are missing.
      </p>
      {now.how === 'refused' && <Cautions findings={now.why} place="clearances" groups={[]} />}
      <button type="button" class="again" onClick={tryEstimateAgain}>
        Try again
      </button>
    </div>
  );
}

const NOT_LOADED = 'The part of the planner that works out the quantities could not be had or keeps stopping.';
const NOT_TAKEN = 'The quantities of this site could not be worked out.';

/** One line under the verdict for as long as the estimate cannot be had. */
export function MissingCautions() {
  const { how } = tally.value;
  if (how !== 'failed' && how !== 'refused') return null;
  return (
    <p class="caution" data-severity="fault" data-check="no-estimate">
      <strong>Fault:</strong> cautions on the dig, on footings, spoil and water are missing: see Quantities.
    </p>
  );
}

function Row({ quantity, revision }: { quantity: Quantity; revision: number }) {
  const { key, label, shown, caveats, range, cost } = quantity;
  const open = opened.value === key;
  const words = range ? between(range.low, range.high, range.open) : ranged.value.has(key) && 'low and high when it rests';
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
        {words && <span class="quantity-range">{words}</span>}
        {cost && (
          <span class="quantity-cost">
            cost <b>{cost.text}</b>
          </span>
        )}
        {caveats.length > 0 && <span class="row-caveats">(?) {caveats.join(', ')}</span>}
      </button>
      {open && <OpenWorking quantityKey={key} revision={revision} />}
    </li>
  );
}

/** What everything that has a rate comes to. */
function Total({ cost: { total, low, high } }: { cost: Costs }) {
  return (
    <p class="costs-total">
      <span>Cost of what has a rate</span>
      <b>{total.text}</b>
      <span class="quantity-range">{between(low, high)}</span>
    </p>
  );
}

/** `revision` is what makes it ask again after a change. */
export function OpenWorking({ quantityKey }: { quantityKey: string; revision: number }) {
  const workings = askDesk((desk) => desk.workings(quantityKey), undefined);
  return workings ? <Working workings={workings} /> : null;
}
