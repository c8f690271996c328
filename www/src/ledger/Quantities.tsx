// The takeoff by groups: each a line with its chief figure until it is opened, then line by line. Each of those opens its
// working in place. Low and high come when the hand rests.
import { ask } from '../core/planner.ts';
import type { CostRows as Costs, Finding, GroupRow, QuantityRow as Quantity, Topic } from '../core/types.ts';
import { openGroups } from '../state/arrangement.ts';
import { ranged, rangesStopped, tally, tryRangesAgain } from '../state/quantities.ts';
import { dim, light, openedQuantity, sheet } from '../state/store.ts';
import { between } from '../takeoff/words.ts';
import { count, heard, phrase, woven } from '../words/words.ts';
import { Cautions } from './Cautions.tsx';
import { Working } from './Working.tsx';

interface Props {
  /** By the place each stands in. */
  findings: Map<Topic, Finding[]>;
  placed: boolean;
}

export function Quantities({ findings, placed }: Props) {
  const { groups = [], quantities = [], cost = null } = tally.value ?? {};
  const closed = groups.some(({ group }) => !openGroups.value.includes(group));
  return (
    <section class="quantities" aria-labelledby="quantities-head">
      <h3 id="quantities-head">
        {phrase('Quantities')} <span class="head-aside">{phrase('open one for its calculation')}</span>
      </h3>
      {quantities.length > 0 && (
        <div class="quantities-doors">
          <button type="button" onClick={() => (sheet.value = 'takeoff')}>
            {phrase('Takeoff and cost')}
          </button>
          <button type="button" onClick={() => (sheet.value = 'compare')}>
            {phrase('Compare placements')}
          </button>
          <button type="button" onClick={() => (openGroups.value = closed ? groups.map((it) => it.group) : [])}>
            {closed ? phrase('Open all groups') : phrase('Close all groups')}
          </button>
        </div>
      )}
      <NoRanges />
      {!placed && <p class="nothing-yet">{phrase('With a shell on the lot, dig, spoil and stone are listed here.')}</p>}
      {groups.map((group) => (
        <Group
          key={group.group}
          row={group}
          quantities={quantities.filter((it) => it.group === group.group)}
          findings={findings.get(group.group)}
        />
      ))}
      <Cautions findings={findings.get('cost')} place="cost" />
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
        <strong>{phrase('Note:')}</strong> {phrase('Low and high could not be calculated: that part of the planner stopped. Everything else stands.')}
      </p>
      <button type="button" class="again" onClick={tryRangesAgain}>
        {phrase('Try again')}
      </button>
    </div>
  );
}

interface GroupProps {
  row: GroupRow;
  quantities: Quantity[];
  findings: Finding[] | undefined;
}

function Group({ row: { group, label, chief }, quantities, findings = [] }: GroupProps) {
  const open = openGroups.value.includes(group);
  const first = quantities.find((it) => it.key === chief);
  const cautions = findings.filter((it) => it.severity !== 'note').length;
  const turn = () => (openGroups.value = open ? openGroups.value.filter((it) => it !== group) : [...openGroups.value, group]);
  const waits = tally.value?.without_ranges === true;
  return (
    <div class="quantity-group" data-group={group} data-open={open}>
      <h4>
        <button type="button" class="group-head" aria-expanded={open} onClick={turn}>
          <span class="group-label">{heard(label)}</span>
          {cautions > 0 && (
            <span class="group-cautions">
              <span class="unseen">, {count(cautions, '{n} caution', '{n} cautions')}</span>
              <span aria-hidden="true">⚠ {cautions}</span>
            </span>
          )}
          {!open && first && (
            <>
              <span class="leader" aria-hidden="true" />
              <span class="quantity-value">{first.shown.text}</span>
            </>
          )}
        </button>
      </h4>
      {open && <Cautions findings={findings} place={group} />}
      {open && (
        <ul>
          {quantities.map((quantity) => (
            <Row key={quantity.key} quantity={quantity} waits={waits && ranged.value.has(quantity.key)} />
          ))}
        </ul>
      )}
    </div>
  );
}

/** `waits`: it will have a low and a high when the hand rests. */
function Row({ quantity, waits }: { quantity: Quantity; waits: boolean }) {
  const { key, label, shown, caveats, range, cost } = quantity;
  const open = openedQuantity.value === key;
  const words = range
    ? between(range.low, range.high, range.open)
    : waits && phrase('low and high when you let go');
  const it = { quantity: key };
  return (
    <li>
      <button
        type="button"
        class="quantity"
        data-key={key}
        aria-expanded={open}
        onClick={() => (openedQuantity.value = open ? null : key)}
        onFocus={() => light(it)}
        onBlur={() => dim(it)}
        onPointerEnter={() => light(it)}
        onPointerLeave={(event) => event.pointerType === 'mouse' && dim(it)}
      >
        <span class="quantity-label">{heard(label)}</span>
        <span class="leader" aria-hidden="true" />
        <span class="quantity-value">{shown.text}</span>
        {words && <span class="quantity-range">{words}</span>}
        {cost && (
          <span class="quantity-cost">
            {woven('cost {sum}', { sum: <b>{cost.text}</b> })}
          </span>
        )}
        {caveats.length > 0 && <span class="row-caveats">(?) {caveats.map(heard).join(', ')}</span>}
      </button>
      {open && <OpenWorking quantityKey={key} />}
    </li>
  );
}

/** What everything that has a rate comes to. */
function Total({ cost: { total, low, high } }: { cost: Costs }) {
  const words = tally.value?.without_ranges ? phrase('low and high when you let go') : between(low, high);
  return (
    <p class="costs-total">
      <span>{phrase('Priced subtotal')}</span>
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
