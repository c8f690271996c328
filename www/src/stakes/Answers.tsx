// What the readings say: where to cut or fill, where the hole is too narrow, how far the rim is out of level.
import type { GradeWork, ShellEnd, StakeoutFigures } from '../core/types.ts';
import { Table } from './StakeTables.tsx';

const TO_DO: Record<GradeWork, string> = { cut: 'Cut', 'on-grade': 'On grade', fill: 'Fill' };
const ENDS: Record<ShellEnd, string> = {
  deep: 'deep end',
  shallow: 'shallow end',
  left: 'left side (looking toward the deep end)',
  right: 'right side (looking toward the deep end)',
};

/** A figure without its sign. */
const bare = (text: string): string => text.replace(/^[-−+]/, '');

export function BottomAnswer({ now: { bottom } }: { now: StakeoutFigures }) {
  if (!bottom) return null;
  return (
    <div class="answer" data-answer="bottom">
      <p>
        The bottom as dug: <b>{bottom.cut.shown.text}</b> to cut, <b>{bottom.fill.shown.text}</b> of stone to fill up to grade.
      </p>
      <Table heads={['Place', 'To do', 'Bottom at', 'Stands for']}>
        {bottom.places.map((it) => (
          <tr key={it.reading}>
            <th scope="row">{it.place}</th>
            <td>
              <b>
                {TO_DO[it.grade]}
                {it.grade !== 'on-grade' && ` ${bare(it.high.shown.text)}`}
              </b>
            </td>
            <td>{it.elevation.shown.text}</td>
            <td>{it.share.shown.text}</td>
          </tr>
        ))}
      </Table>
      <p class="field-hint">{bottom.method}</p>
    </div>
  );
}

export function TapedAnswer({ now: { taped } }: { now: StakeoutFigures }) {
  if (taped.length === 0) return null;
  return (
    <div class="answer" data-answer="taped">
      <p>As taped:</p>
      <ul class="stakes-list">
        {taped.map(({ reading, stake, found, apart }) => (
          <li key={reading}>
            <b>{stake}</b>:{' '}
            {!found && `the tapes cannot meet; they are ${apart?.shown.text ?? ''} apart.`}
            {found?.miss && `${found.miss.shown.text} off the plan${found.towards ? `, toward ${found.towards.shown.text}` : ''}. `}
            {found?.narrower && Math.abs(found.narrower.value) > 1e-3 && (
              <b class={found.narrower.value > 0 ? 'stakes-bad' : ''}>
                The hole is {bare(found.narrower.shown.text)} {found.narrower.value > 0 ? 'narrower than the over-dig asks.' : 'wider than asked.'}
              </b>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

export function RimAnswer({ now: { rim } }: { now: StakeoutFigures }) {
  if (!rim) return null;
  const [high, low] = rim.high_low.map((index) => rim.places[index]?.place ?? '');
  return (
    <div class="answer" data-answer="rim">
      <p>
        The rim as set is <b class={rim.within ? '' : 'stakes-bad'}>{rim.out_of_level.shown.text} out of level</b>, {rim.within ? 'within' : 'more than'} your
        limit of {rim.limit.shown.text} (your own setting; common practice, no source). Highest at {high}, lowest at {low}.
      </p>
      {rim.lifts && rim.lifts.length > 0 && (
        <p>
          Lift {rim.lifts.map(([end, by]) => `the ${ENDS[end]} by ${by.shown.text}`).join(', ')}.
          {rim.twist && ` What no lifting mends: ${rim.twist.shown.text}.`}
        </p>
      )}
      {rim.places.length < 6 && <p class="field-hint">Six readings or more tell a twisted rim from a tilted one.</p>}
    </div>
  );
}
