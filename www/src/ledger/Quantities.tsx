// The takeoff, line by line. Each opens its working in place. Low and high come when the hand rests.
import { signal } from '@preact/signals';
import { ask } from '../core/planner.ts';
import type { CostRows as Costs, Finding, Group, QuantityRow as Quantity } from '../core/types.ts';
import { ranged, rangesStopped, tally, tryRangesAgain } from '../state/quantities.ts';
import { dim, light, sheet } from '../state/store.ts';
import { between } from '../takeoff/words.ts';
import { Cautions } from './Cautions.tsx';
import { Working } from './Working.tsx';

export const GROUPS: Record<Group, string> = {
  dig: 'Dig',
  grading: 'Grading',
  haul: 'Haul',
  stone: 'Stone',
  concrete: 'Concrete',
  'rods-and-forms': 'Rebar and forms',
  pipe: 'Pipe',
  water: 'Water',
};

const opened = signal<string | null>(null);

interface Props {
  findings: Finding[];
  placed: boolean;
}

export function Quantities({ findings, placed }: Props) {
  const { quantities = [], cost = null, without_ranges: waits = false } = tally.value ?? {};
  const groups = [...new Set(quantities.map((quantity) => quantity.group))];
  return (
    <section class="quantities" aria-labelledby="quantities-head">
      <h3 id="quantities-head">
        Quantities <span class="head-aside">tap for the calculation</span>
      </h3>
      {quantities.length > 0 && (
        <div class="quantities-doors">
          <button type="button" onClick={() => (sheet.value = 'takeoff')}>
            Takeoff and cost
          </button>
          <button type="button" onClick={() => (sheet.value = 'compare')}>
            Compare placements
          </button>
        </div>
      )}
      <NoRanges />
      {!placed && <p class="nothing-yet">With a shell on the lot, dig, spoil and stone are listed here.</p>}
      {groups.map((group) => (
        <div key={group} class="quantity-group" data-group={group}>
          <h4>{GROUPS[group]}</h4>
          <Cautions findings={findings} topic={group} />
          <ul>
            {quantities
              .filter((quantity) => quantity.group === group)
              .map((quantity) => (
                <Row key={quantity.key} quantity={quantity} waits={waits && ranged.value.has(quantity.key)} />
              ))}
          </ul>
        </div>
      ))}
      <Cautions findings={findings} topic="cost" />
      {cost && <Total cost={cost} />}
    </section>
  );
}

/** Low and high could not be found. */
export function NoRanges() {
  if (!rangesStopped.value) return null;
  return (
    <div class="cautions" role="alert">
      <p class="caution" data-severity="note" data-check="no-ranges">
        <strong>Note:</strong> Low and high could not be calculated: that part of the planner stopped. Everything else
        stands.
      </p>
      <button type="button" class="again" onClick={tryRangesAgain}>
        Try again
      </button>
    </div>
  );
}

/** `waits`: it will have a low and a high when the hand rests. */
function Row({ quantity, waits }: { quantity: Quantity; waits: boolean }) {
  const { key, label, shown, caveats, range, cost } = quantity;
  const open = opened.value === key;
  const words = range
    ? between(range.low, range.high, range.open)
    : waits && 'low and high when you let go';
  const it = { quantity: key };
  return (
    <li>
      <button
        type="button"
        class="quantity"
        data-key={key}
        aria-expanded={open}
        onClick={() => (opened.value = open ? null : key)}
        onFocus={() => light(it)}
        onBlur={() => dim(it)}
        onPointerEnter={() => light(it)}
        onPointerLeave={(event) => event.pointerType === 'mouse' && dim(it)}
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
      {open && <OpenWorking quantityKey={key} />}
    </li>
  );
}

/** What everything that has a rate comes to. */
function Total({ cost: { total, low, high } }: { cost: Costs }) {
  const words = tally.value?.without_ranges ? 'low and high when you let go' : between(low, high);
  return (
    <p class="costs-total">
      <span>Priced subtotal</span>
      <b>{total.text}</b>
      <span class="quantity-range">{words}</span>
    </p>
  );
}

/** The arithmetic behind a quantity, asked for anew after every change. */
export function OpenWorking({ quantityKey }: { quantityKey: string }) {
  void tally.value;
  const workings = ask((p) => p.workings(quantityKey), undefined);
  return workings ? <Working workings={workings} /> : null;
}
