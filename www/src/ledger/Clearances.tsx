// Every clearance with its room, signed, and the rule behind it. Looking at a row lights it up on the plan.
import type { ClearanceRow as Clearance } from '../core/types.ts';
import { dim, highlight, light, sameLight } from '../state/store.ts';
import { Mark } from './Mark.tsx';

export function Clearances({ clearances }: { clearances: Clearance[] }) {
  return (
    <section class="clearances" aria-labelledby="clearances-head">
      <h3 id="clearances-head">
        Clearances <span class="head-aside">least room first</span>
      </h3>
      {clearances.length === 0 ? (
        <p class="nothing-yet">Nothing is measured yet: the verdict above says why.</p>
      ) : (
        <ul>
          {clearances.map((clearance) => (
            <Row key={clearance.index} clearance={clearance} />
          ))}
        </ul>
      )}
    </section>
  );
}

function Row({ clearance }: { clearance: Clearance }) {
  const { index, name, from, target, distance, required, room, short, source, caveats } = clearance;
  const it = { clearance: index };
  const lit = sameLight(highlight.value, it);
  return (
    <li>
      <button
        type="button"
        class="clearance"
        data-short={short}
        data-index={index}
        aria-pressed={lit}
        onClick={() => light(it)}
        onFocus={() => light(it)}
        onBlur={() => dim(it)}
        onPointerEnter={() => light(it)}
        onPointerLeave={(event) => event.pointerType === 'mouse' && dim(it)}
      >
        <Mark kind={short ? 'short' : 'fits'} />
        <span class="clearance-name">{name}</span>
        <span class="clearance-ends">
          {from} to {target}
        </span>
        <span class="clearance-room">
          <span class="unseen">{short ? 'Falls short, room ' : 'Room '}</span>
          {short ? room.text : `+${room.text}`}
          <small aria-hidden="true">{short ? 'short' : 'room'}</small>
        </span>
        <span class="clearance-rule">
          {from} to {target}: <b class="clearance-distance">{distance.text}</b>,{' '}
          <span class="figure">needs {required.text}</span>
        </span>
        {caveats.length > 0 && <span class="row-caveats">(?) {caveats.join(', ')}</span>}
        <span class="clearance-source">{source || 'No source named for this rule'}</span>
      </button>
    </li>
  );
}
