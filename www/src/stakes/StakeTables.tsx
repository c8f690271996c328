// The stakes in tables: two tapes to each, the angle at which they cross, how far it may be out; offset stakes with
// their cuts; the diagonals that check them.
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { RodFigures, StakedLine, StakeoutFigures, TieFigures } from '../core/types.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { heard, phrase, woven } from '../words/words.ts';
import { StakePlan } from './StakePlan.tsx';

const ALL = 'all';

export function StakeTable({ now }: { now: StakeoutFigures }) {
  const [line, setLine] = useState<StakedLine | typeof ALL>(now.stakes[0]?.line ?? ALL);
  const lines = [...new Map(now.stakes.map((it) => [it.line, it.what])).entries()];
  const options = [{ value: ALL, text: phrase('All lines') }, ...lines.map(([value, what]) => ({ value, text: plain(what) }))] as const;
  const shown = now.stakes.filter((it) => line === ALL || it.line === line);
  const chord = now.chords.find(([of]) => of === line)?.[1];
  return (
    <div class="part-body">
      <Choice label={phrase('What they mark')} value={line} options={options} choose={setLine} />
      <StakePlan now={now} line={line === ALL ? undefined : line} />
      {chord && <p class="field-hint">{phrase('A straight string from one to the next lies off the line by {chord} at most.', { chord: chord.shown.text })}</p>}
      <Table heads={[phrase('Stake'), phrase('Tape A'), phrase('Tape B'), phrase('They cross at'), phrase('May be out by'), phrase('Along, off the base line'), phrase('Rod on the bottom')]}>
        {shown.map((it) => (
          <tr key={it.name} data-stake={it.name}>
            <th scope="row">
              <b>{it.name}</b> <small>{heard(it.what)}</small>
            </th>
            <Tie tie={it.tie} />
            <td>{it.tie && `${it.tie.along.shown.text}, ${it.tie.off.shown.text} ${heard(it.tie.side)}`}</td>
            <Rod rod={it.rod} />
          </tr>
        ))}
      </Table>
    </div>
  );
}

export function OffsetTable({ now }: { now: StakeoutFigures }) {
  return (
    <div class="part-body">
      <p class="field-hint">
        {phrase('They stand {clear} clear of the top of dig, square to its sides, and stay when the others are dug away. To the edge: level, to the bottom edge. Cut: from the ground at the stake down to the bottom.', { clear: now.clear.shown.text })}
      </p>
      <Table heads={[phrase('Stake'), phrase('Tape A'), phrase('Tape B'), phrase('They cross at'), phrase('May be out by'), phrase('To the edge'), phrase('Cut'), phrase('Rod on the bottom')]}>
        {now.offsets.map((it) => (
          <tr key={it.name} data-stake={it.name}>
            <th scope="row">
              <b>{it.name}</b> <small>{it.serves} {heard(it.towards)}</small>
            </th>
            <Tie tie={it.tie} />
            <td>{it.distance.shown.text}</td>
            <td>{it.cut?.shown.text ?? phrase('ground unknown')}</td>
            <Rod rod={it.rod} />
          </tr>
        ))}
      </Table>
    </div>
  );
}

export function DiagonalList({ now }: { now: StakeoutFigures }) {
  return (
    <ul class="part-body stakes-list">
      {now.diagonals.map((it) => {
        const [a, b, c, d] = it.stakes;
        return (
          <li key={it.stakes.join()}>
            {woven('{a} to {c}: {first}; {b} to {d}: {second}.', { a, c, first: <b>{it.lengths[0].shown.text}</b>, b, d, second: <b>{it.lengths[1].shown.text}</b> })}{' '}
            {phrase('One an inch longer is {angle} off square, {length} over the longer side.', {
              angle: it.off_by_inch[0].shown.text,
              length: it.off_by_inch[1].shown.text,
            })}
          </li>
        );
      })}
    </ul>
  );
}

function Tie({ tie }: { tie: TieFigures | null }) {
  if (!tie) return <td colSpan={4}>{phrase('no fixed points')}</td>;
  return (
    <>
      {tie.tapes.map((tape, i) => (
        <td key={i}>
          <b>{tape.shown.text}</b>
          {tie.blocked[i] && <small class="stakes-bad">{phrase('{thing} in the way', { thing: heard(tie.blocked[i]) })}</small>}
        </td>
      ))}
      <td>
        {tie.crossing.shown.text}
        {!tie.sound && <small class="stakes-bad">{phrase('poor')}</small>}
      </td>
      <td>{tie.error?.shown.text ?? phrase('on the base line')}</td>
    </>
  );
}

/** What the rod reads there, once the laser is set up. */
export function Rod({ rod }: { rod: RodFigures | null }) {
  if (!rod) return <td>–</td>;
  return (
    <td>
      <b>{rod.text}</b>
      {!rod.shows && <small class="stakes-bad">{phrase('off the rod')}</small>}
    </td>
  );
}

/** A table that is pulled sideways where it is too wide. */
export function Table({ heads, children }: { heads: readonly string[]; children: ComponentChildren }) {
  return (
    <div class="stakes-scroll" tabIndex={0} role="group" aria-label={phrase('Table: {what}', { what: heads[0] ?? '' })}>
      <table class="stakes-table">
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}
