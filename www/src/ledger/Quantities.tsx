// The takeoff, line by line. Each opens its working in place. While the estimate is not there, that is said here:
// its cautions are never missing without a word.
import { signal } from '@preact/signals';
import { askDesk } from '../door/estimate.ts';
import type { Finding } from '../door/shapes.ts';
import type { Quantity } from '../door/tally.ts';
import { tally, tryEstimateAgain } from '../state/estimate.ts';
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
      {placed ? <NotYet /> : <p class="nothing-yet">With a shell on the lot, dig, spoil and stone are listed here.</p>}
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

/** Why nothing is listed although there is a shell. */
function NotYet() {
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
  const workings = askDesk((desk) => desk.workings(quantityKey), undefined);
  return workings ? <Working workings={workings} /> : null;
}
