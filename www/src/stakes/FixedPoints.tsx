// The two fixed points that tapes are held to: chosen by name, or the best pair there is.
import type { FixedCandidate, FixedPair, StakeoutFigures } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { stakeOrTell } from './figures.ts';

const keyOf = (it: FixedCandidate): string => JSON.stringify(it.point);

export function FixedPoints({ now }: { now: StakeoutFigures }) {
  const { base, best, candidates } = now;
  const fix = (pair: FixedPair | null) => void stakeOrTell({ fix: pair }, 'The fixed points were not changed.');
  if (candidates.length < 2) {
    return <p class="nothing-yet">Tapes need two fixed points: enter the house, or set a benchmark with its place.</p>;
  }
  const options = candidates.map((it) => ({ value: keyOf(it), text: it.firm ? it.name : `${it.name} (not firm)` }));
  const [a, b] = base?.points ?? [];
  const choose = (which: 'a' | 'b') => (key: string) => {
    const point = candidates.find((it) => keyOf(it) === key)?.point;
    if (a && b && point) fix({ a: a.point, b: b.point, [which]: point });
  };
  const isBest = base && best && base.points.every((it, i) => keyOf(it) === keyOf(best.points[i as 0 | 1]));
  return (
    <section class="stakes-part" aria-labelledby="stakes-fixed">
      <h3 id="stakes-fixed">Fixed points</h3>
      {base && a && b ? (
        <>
          <div class="pairs">
            <Choice label="Tape A" value={keyOf(a)} options={options} choose={choose('a')} />
            <Choice label="Tape B" value={keyOf(b)} options={options} choose={choose('b')} />
          </div>
          <p>
            From A to B {base.length.shown.text}.{' '}
            {base.worst ? `A stake may be out by ${base.worst.shown.text}, each tape by ${now.tape_error.shown.text}.` : 'A stake lies on the line between them.'}
            {base.proposed && ' Nobody chose them: they are the best pair there is.'}
          </p>
        </>
      ) : (
        <p class="nothing-yet">No two of the fixed points can be used together.</p>
      )}
      <div class="buttons">
        {!base?.proposed && best && !isBest && (
          <button type="button" onClick={() => fix(null)}>
            Use the best pair: {best.points[0].name} and {best.points[1].name}
          </button>
        )}
        {base?.proposed && (
          <button type="button" onClick={() => fix({ a: base.points[0].point, b: base.points[1].point })}>
            Keep this pair
          </button>
        )}
      </div>
    </section>
  );
}
