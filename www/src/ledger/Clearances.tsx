// Every clearance with its room, signed, least first: what falls short or is tight in full, what has ample room a line
// each. Looking at a row lights it up on the plan; tapping it opens it.
import type { ClearanceGroup, ClearanceRow, Margin } from '../core/types.ts';
import { takeOver } from '../state/refresh.ts';
import { dim, highlight, light, moreClearances, openedClearance, sameLight } from '../state/store.ts';
import { count, english, heard, phrase, woven, type English } from '../words/words.ts';
import { Mark } from './Mark.tsx';

/** How many more of each group are listed at a tap. */
const STEP = 48;

const HEADS: Record<Margin, English> = { short: english('Short'), tight: english('Tight'), ample: english('Ample') };

export function Clearances({ clearances }: { clearances: ClearanceGroup[] }) {
  return (
    <section class="clearances" aria-labelledby="clearances-head">
      <h3 id="clearances-head">
        {phrase('Clearances')} <span class="head-aside">{phrase('least room first')}</span>
      </h3>
      {clearances.length === 0 && <p class="nothing-yet">{phrase('Nothing is measured yet: the verdict above says why.')}</p>}
      {clearances.map((group) => (
        <Group key={group.margin} group={group} />
      ))}
    </section>
  );
}

function listMore(): void {
  moreClearances.value += STEP;
  takeOver();
}

function Group({ group: { margin, count: all, rows } }: { group: ClearanceGroup }) {
  const left = all - rows.length;
  return (
    <div class="clearance-group" data-margin={margin}>
      <h4>
        {phrase(HEADS[margin])} <span class="head-count">{all}</span>
      </h4>
      <ul>
        {rows.map((clearance) => (
          <Row key={clearance.index} clearance={clearance} margin={margin} />
        ))}
      </ul>
      {left > 0 && (
        <button type="button" class="more" onClick={listMore}>
          {margin === 'short'
            ? count(left, '{n} more that falls short', '{n} more that fall short')
            : count(left, '{n} more with at least {room} of room', '{n} more with at least {room} of room', { room: rows.at(-1)?.room.text ?? '' })}
        </button>
      )}
    </div>
  );
}

function Row({ clearance, margin }: { clearance: ClearanceRow; margin: Margin }) {
  const { index, distance, above, required, room, source } = clearance;
  const [name, from, target] = [heard(clearance.name), heard(clearance.from), heard(clearance.target)];
  const caveats = clearance.caveats.map(heard);
  const it = { clearance: index };
  const lit = sameLight(highlight.value, it);
  const short = margin === 'short';
  const opened = openedClearance.value === index;
  const open = opened || margin !== 'ample';
  return (
    <li>
      <button
        type="button"
        class="clearance"
        data-short={short}
        data-index={index}
        data-open={open}
        aria-pressed={lit}
        onClick={() => {
          light(it);
          openedClearance.value = opened ? null : index;
        }}
        onFocus={() => light(it)}
        onBlur={() => dim(it)}
        onPointerEnter={() => light(it)}
        onPointerLeave={(event) => event.pointerType === 'mouse' && dim(it)}
      >
        <Mark kind={short ? 'short' : 'fits'} />
        <span class={open ? 'clearance-name' : 'clearance-name unseen'}>{name}</span>
        <span class="clearance-ends">
          {!open && caveats.length > 0 && <abbr title={caveats.join(', ')}>(?) </abbr>}
          {phrase('{from} to {target}', { from, target })}
        </span>
        <span class="clearance-room">
          <span class="unseen">{short ? phrase('Falls short, room') : phrase('Room')}{' '}</span>
          {short ? room.text : `+${room.text}`}
          {open && <small aria-hidden="true">{short ? phrase('short') : phrase('room')}</small>}
        </span>
        {open ? (
          <>
            <span class="clearance-rule">
              {woven('{from} to {target}: {distance}', { from, target, distance: <b class="clearance-distance">{distance.text}</b> })}
              {above && ` ${phrase('aslant, {above} above the rim', { above: above.text })}`},{' '}
              <span class="figure">{phrase('needs {required}', { required: required.text })}</span>
            </span>
            {caveats.length > 0 && <span class="row-caveats">(?) {caveats.join(', ')}</span>}
            <span class="clearance-source">{heard(source) || phrase('No source named for this rule')}</span>
          </>
        ) : (
          <span class="clearance-distance unseen">{distance.text}</span>
        )}
      </button>
    </li>
  );
}
