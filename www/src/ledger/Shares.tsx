// How much of the ground is covered, where a rule limits it.
import type { ShareFigures } from '../core/types.ts';
import { Mark } from './Mark.tsx';

export function Shares({ shares }: { shares: ShareFigures[] }) {
  if (shares.length === 0) return null;
  return (
    <section class="shares" aria-labelledby="shares-head">
      <h3 id="shares-head">Covered ground</h3>
      <ul>
        {shares.map(({ name, of, counts, most, source, covered }, index) => (
          <li key={index} data-short={covered?.exceeded}>
            <Mark kind={covered ? (covered.exceeded ? 'short' : 'fits') : 'unchecked'} />
            <span class="share-name">{name}</span>
            <b>{covered?.after.shown.text ?? 'unknown'}</b>
            <small>
              {covered ? `Of the ${of}, ${covered.before.shown.text} before` : `Of the ${of}`}; at most {most.shown.text}. Counts{' '}
              {counts}. {source}
            </small>
          </li>
        ))}
      </ul>
    </section>
  );
}
