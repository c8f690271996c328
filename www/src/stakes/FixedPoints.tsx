// The two fixed points that tapes are held to: chosen by name, or the best pair there is.
import type { FixedCandidate, FixedPair, StakeoutFigures } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { heard, phrase } from '../words/words.ts';
import { stakeOrTell } from './figures.ts';

const keyOf = (it: FixedCandidate): string => JSON.stringify(it.point);

export function FixedPoints({ now }: { now: StakeoutFigures }) {
  const { base, best, candidates } = now;
  const fix = (pair: FixedPair | null) => void stakeOrTell({ fix: pair }, phrase('The fixed points were not changed.'));
  if (candidates.length < 2) {
    return <p class="nothing-yet">{phrase('Tapes need two fixed points: enter the house, or set a benchmark with its place.')}</p>;
  }
  const options = candidates.map((it) => ({ value: keyOf(it), text: it.firm ? heard(it.name) : phrase('{name} (not firm)', { name: heard(it.name) }) }));
  const [a, b] = base?.points ?? [];
  const choose = (which: 'a' | 'b') => (key: string) => {
    const point = candidates.find((it) => keyOf(it) === key)?.point;
    if (a && b && point) fix({ a: a.point, b: b.point, [which]: point });
  };
  const isBest = base && best && base.points.every((it, i) => keyOf(it) === keyOf(best.points[i as 0 | 1]));
  return (
    <section class="stakes-part" aria-labelledby="stakes-fixed">
      <h3 id="stakes-fixed">{phrase('Fixed points')}</h3>
      {base && a && b ? (
        <>
          <div class="pairs">
            <Choice label={phrase('Tape A')} value={keyOf(a)} options={options} choose={choose('a')} />
            <Choice label={phrase('Tape B')} value={keyOf(b)} options={options} choose={choose('b')} />
          </div>
          <p>
            {phrase('From A to B {length}.', { length: base.length.shown.text })}{' '}
            {base.worst
              ? phrase('A stake may be out by {worst}, each tape by {tape_error}.', { worst: base.worst.shown.text, tape_error: now.tape_error.shown.text })
              : phrase('A stake lies on the line between them.')}
            {base.proposed && ` ${phrase('Nobody chose them: they are the best pair there is.')}`}
          </p>
        </>
      ) : (
        <p class="nothing-yet">{phrase('No two of the fixed points can be used together.')}</p>
      )}
      <div class="buttons">
        {!base?.proposed && best && !isBest && (
          <button type="button" onClick={() => fix(null)}>
            {phrase('Use the best pair: {first} and {second}', { first: heard(best.points[0].name), second: heard(best.points[1].name) })}
          </button>
        )}
        {base?.proposed && (
          <button type="button" onClick={() => fix({ a: base.points[0].point, b: base.points[1].point })}>
            {phrase('Keep this pair')}
          </button>
        )}
      </div>
    </section>
  );
}
