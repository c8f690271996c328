// The way in and the crane: how wide the widest way is, who passes, what to take out, where the crane stands and how far
// it reaches; drawn over the plan while this is open.
import { useEffect } from 'preact/hooks';
import { ledger } from '../state/store.ts';
import type { Site } from '../core/types.ts';
import { FindingList } from '../ledger/FindingList.tsx';
import type { AccessFigures } from '../paper/messages.ts';
import { StoppedNote } from '../paper/StoppedNote.tsx';
import { heard, phrase, woven } from '../words/words.ts';
import { access, accessStopped, forgetAccess, measure } from './access.ts';
import { CranePart } from './CranePart.tsx';
import { MachineFields } from './MachineFields.tsx';
import { marked, overPlan } from './overlay.ts';
import { put } from './spots.ts';
import './way.css';

type Passage = AccessFigures['passages'][number];
type Removal = AccessFigures['removals'][number];

/** The hand has to rest so long before the way is measured, milliseconds. */
const REST = 150;

export function WayIn({ site }: { site: Site }) {
  const revision = ledger.value?.revision ?? -1;
  useEffect(() => {
    const resting = setTimeout(() => measure(revision), access.value ? REST : 0);
    return () => clearTimeout(resting);
  }, [revision]);
  useEffect(() => {
    const stop = overPlan();
    return () => {
      stop();
      forgetAccess();
    };
  }, []);
  const now = access.value?.figures;
  const busy = access.value?.revision !== revision && !accessStopped.value;
  return (
    <div class="way" aria-busy={busy}>
      {accessStopped.value && <StoppedNote text={phrase('Measure again')} again={() => measure(revision)} />}
      {now ? <Told now={now} /> : <p aria-live="polite">{accessStopped.value ? '' : phrase('The way in is being measured.')}</p>}
      <SetDown site={site} />
      <MachineFields works={site.works} />
      <CranePart site={site} figures={now?.crane ?? null} />
    </div>
  );
}

function Told({ now }: { now: AccessFigures }) {
  const { to_dig: way, to_set_down: laid } = now;
  return (
    <>
      {way && (
        <p class="way-head" role="status" data-closed={way.closed}>
          {way.closed ? (
            <b>{phrase('No way in is open')}</b>
          ) : (
            <>
              {woven('Widest way to the dig: {width} {place}', {
                width: <b>{way.width?.shown.text ?? phrase('not limited')}</b>,
                place: heard(way.place),
              })}
              {!way.closed && `; ${phrase('{length} long', { length: way.length.shown.text })}`}
            </>
          )}
        </p>
      )}
      {laid && (
        <p class="way-head">
          {woven('To the set-down: {width} {place}', {
            width: <b>{laid.closed ? phrase('closed') : (laid.width?.shown.text ?? phrase('not limited'))}</b>,
            place: heard(laid.place),
          })}
        </p>
      )}
      {now.passages.length > 0 && <Passages rows={now.passages} />}
      {now.removals.length > 0 && <Removals rows={now.removals} />}
      <FindingList list={now.findings} label={phrase('About the way in')} />
    </>
  );
}

function Passages({ rows }: { rows: Passage[] }) {
  return (
    <div class="answer table-scroll">
      <table aria-label={phrase('Who passes')}>
        <thead>
          <tr>
            <th scope="col">{phrase('Who')}</th>
            <th scope="col">{phrase('Needs')}</th>
            <th scope="col">{phrase('Room')}</th>
            <th scope="col">{phrase('Passes')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((it) => (
            <tr key={it.who} data-short={!it.fits}>
              <th scope="row">
                {heard(it.label)}
                <small>{phrase('{width} wide', { width: it.width.shown.text })}</small>
              </th>
              <td>{it.needed.shown.text}</td>
              <td>{it.room?.shown.text ?? '—'}</td>
              <td>{passes(it)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="field-hint">
        {phrase('What is needed has the room on either side in it. Bends are checked by the width swept in a steady turn, from wheelbase and radius.')}
      </p>
    </div>
  );
}

function passes(it: Passage): string {
  if (!it.fits) return it.low ? phrase('✕ no, for its height') : phrase('✕ no');
  return it.turns ? phrase('✓ yes') : phrase('! a bend is tight');
}

function Removals({ rows }: { rows: Removal[] }) {
  return (
    <section aria-label={phrase('Taken out to try')}>
      <h3 class="yard-kind">{phrase('Taken out to try')}</h3>
      <ul class="way-list">
        {rows.map((it, at) => (
          <li key={at} onPointerEnter={() => (marked.value = it.ends)} onPointerLeave={() => (marked.value = null)}>
            {it.whole ? phrase('All of {thing}', { thing: heard(it.name) }) : phrase('{length} of {thing}', { length: it.length.shown.text, thing: heard(it.name) })}:{' '}
            <b>{it.width?.shown.text ?? phrase('not limited')}</b>
            {it.wider && ` (+${it.wider.shown.text})`} {heard(it.place)}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Where the shell is laid down before it is set. */
function SetDown({ site }: { site: Site }) {
  const at = site.lift?.set_down;
  return (
    <div class="buttons">
      <button type="button" onClick={() => void put.pick('set_down')}>
        {at ? phrase('Move the set-down') : phrase('Place a set-down for the shell')}
      </button>
      {at && (
        <button type="button" onClick={() => put.away('set_down')}>
          {phrase('Remove the set-down')}
        </button>
      )}
    </div>
  );
}
