// What the readings say: where to cut or fill, where the hole is too narrow, how far the rim is out of level.
import type { GradeWork, ShellEnd, StakeoutFigures } from '../core/types.ts';
import { english, heard, phrase, woven, type English } from '../words/words.ts';
import { Table } from './StakeTables.tsx';

const TO_DO: Record<GradeWork, English> = { cut: english('Cut'), 'on-grade': english('On grade'), fill: english('Fill') };
const LIFTS = {
  deep: english('the deep end by {by}'),
  shallow: english('the shallow end by {by}'),
  left: english('the left side (looking toward the deep end) by {by}'),
  right: english('the right side (looking toward the deep end) by {by}'),
} satisfies Record<ShellEnd, unknown>;

/** A figure without its sign. */
const bare = (text: string): string => text.replace(/^[-−+]/, '');

export function BottomAnswer({ now: { bottom } }: { now: StakeoutFigures }) {
  if (!bottom) return null;
  return (
    <div class="answer" data-answer="bottom">
      <p>
        {woven('The bottom as dug: {cut} to cut, {fill} of stone to fill up to grade.', {
          cut: <b>{bottom.cut.shown.text}</b>,
          fill: <b>{bottom.fill.shown.text}</b>,
        })}
      </p>
      <Table heads={[phrase('Place'), phrase('To do'), phrase('Bottom at'), phrase('Stands for')]}>
        {bottom.places.map((it) => (
          <tr key={it.reading}>
            <th scope="row">{heard(it.place)}</th>
            <td>
              <b>
                {phrase(TO_DO[it.grade])}
                {it.grade !== 'on-grade' && ` ${bare(it.high.shown.text)}`}
              </b>
            </td>
            <td>{it.elevation.shown.text}</td>
            <td>{it.share.shown.text}</td>
          </tr>
        ))}
      </Table>
      <p class="field-hint">{heard(bottom.method)}</p>
    </div>
  );
}

export function TapedAnswer({ now: { taped } }: { now: StakeoutFigures }) {
  if (taped.length === 0) return null;
  return (
    <div class="answer" data-answer="taped">
      <p>{phrase('As taped:')}</p>
      <ul class="stakes-list">
        {taped.map(({ reading, stake, found, apart }) => (
          <li key={reading}>
            <b>{stake}</b>:{' '}
            {!found && phrase('the tapes cannot meet; they are {apart} apart.', { apart: apart?.shown.text ?? '' })}
            {found?.miss &&
              (found.towards
                ? phrase('{miss} off the plan, toward {bearing}.', { miss: found.miss.shown.text, bearing: found.towards.shown.text })
                : phrase('{miss} off the plan.', { miss: found.miss.shown.text }))}{' '}
            {found?.narrower && Math.abs(found.narrower.value) > 1e-3 && (
              <b class={found.narrower.value > 0 ? 'stakes-bad' : ''}>
                {found.narrower.value > 0
                  ? phrase('The hole is {by} narrower than the over-dig asks.', { by: bare(found.narrower.shown.text) })
                  : phrase('The hole is {by} wider than asked.', { by: bare(found.narrower.shown.text) })}
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
        {woven(rim.within ? english('The rim as set is {out}, within your limit of {limit}') : english('The rim as set is {out}, more than your limit of {limit}'), {
          out: <b class={rim.within ? '' : 'stakes-bad'}>{phrase('{length} out of level', { length: rim.out_of_level.shown.text })}</b>,
          limit: rim.limit.shown.text,
        })}{' '}
        {phrase('(your own setting; common practice, no source). Highest at {high}, lowest at {low}.', { high: heard(high ?? ''), low: heard(low ?? '') })}
      </p>
      {rim.lifts && rim.lifts.length > 0 && (
        <p>
          {phrase('Lift {ends}.', { ends: rim.lifts.map(([end, by]) => phrase(LIFTS[end], { by: by.shown.text })).join(', ') })}{' '}
          {rim.twist && phrase('What no lifting mends: {twist}.', { twist: rim.twist.shown.text })}
        </p>
      )}
      {rim.places.length < 6 && <p class="field-hint">{phrase('Six readings or more tell a twisted rim from a tilted one.')}</p>}
    </div>
  );
}
