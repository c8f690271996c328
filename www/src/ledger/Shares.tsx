// How much of the ground is covered, where a rule limits it.
import type { ShareFigures } from '../core/types.ts';
import { heard, phrase } from '../words/words.ts';
import { Mark } from './Mark.tsx';

export function Shares({ shares }: { shares: ShareFigures[] }) {
  if (shares.length === 0) return null;
  return (
    <section class="shares" aria-labelledby="shares-head">
      <h3 id="shares-head">{phrase('Covered ground')}</h3>
      <ul>
        {shares.map(({ name, of, counts, most, source, covered }, index) => (
          <li key={index} data-short={covered?.exceeded}>
            <Mark kind={covered ? (covered.exceeded ? 'short' : 'fits') : 'unchecked'} />
            <span class="share-name">{heard(name)}</span>
            <b>{covered?.after.shown.text ?? phrase('unknown')}</b>
            <small>
              {covered
                ? phrase('Of the {ground}, {before} before; at most {most}.', { ground: heard(of), before: covered.before.shown.text, most: most.shown.text })
                : phrase('Of the {ground}; at most {most}.', { ground: heard(of), most: most.shown.text })}{' '}
              {phrase('Counts {parts}.', { parts: heard(counts) })} {heard(source)}
            </small>
          </li>
        ))}
      </ul>
    </section>
  );
}
