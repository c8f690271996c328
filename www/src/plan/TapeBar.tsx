// The bar over the plan while a tape is stretched: what its ends are held to, its reading, and what that rests on.
import { useId } from 'preact/hooks';
import type { TapeEnd } from '../core/types.ts';
import { drawing, ledger } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import { choices, endTape, holdEnd, holdToPoint, indexOf, removeTape, sameEnd, taping } from './tapes.ts';

const POINT = 'point';

export function TapeBar() {
  const now = taping.value;
  if (!now || drawing.value) return null;
  const { ends, word } = now;
  const index = indexOf(ends);
  const row = ledger.value?.tapes[index];
  const hint = ends[0] ? phrase('Now its other end.') : phrase('Tap its first end: the edge of anything, or bare ground.');
  return (
    <section class="draw-bar tape-bar" aria-label={phrase('Tape')} onKeyDown={(event) => event.key === 'Escape' && endTape()}>
      <header class="draw-head">
        <h2>{phrase('Tape')}</h2>
        <p class="draw-wants" role="status">
          {word ? <span class="draw-word">{heard(word)}</span> : row ? <b>{row.distance?.text ?? phrase('Waits')}</b> : hint}
        </p>
        {row && (
          <button type="button" onClick={() => removeTape(index)}>
            {phrase('Remove')}
          </button>
        )}
        <button type="button" class="main" onClick={endTape}>
          {phrase('Done')}
        </button>
      </header>
      <div class="draw-typing">
        <End label={phrase('From')} which={0} end={ends[0]} />
        <End label={phrase('To')} which={1} end={ends[1]} />
      </div>
      {row && <p class="field-hint">{row.says.map(heard).join(' ')}</p>}
    </section>
  );
}

function End({ label, which, end }: { label: string; which: 0 | 1; end: TapeEnd | null }) {
  const id = useId();
  const all = choices();
  const value = end && 'at' in end ? POINT : String(all.findIndex((it) => sameEnd(it.end, end)));
  return (
    <div class="draw-box">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={(event) => {
          const picked = all[Number(event.currentTarget.value)];
          if (picked) holdEnd(which, picked.end);
          else void holdToPoint(which);
        }}
      >
        <option value="-1" disabled>
          {phrase('Not yet')}
        </option>
        {all.map(({ name }, i) => (
          <option key={i} value={String(i)}>
            {heard(name)}
          </option>
        ))}
        <option value={POINT}>{phrase('A point of the plan')}</option>
      </select>
    </div>
  );
}
