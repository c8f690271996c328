// Contours on the plan: their interval, and what the plan's marks of the ground mean.
import type { Site } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { ask } from '../core/planner.ts';
import { phrase } from '../words/words.ts';

export function ContoursPart({ site }: { site: Site }) {
  const words = ask((p) => p.ground(), null);
  const choose = (interval: number | null) =>
    editOrTell({ 'set-contours': interval }, phrase('The contours were not changed.'));
  return (
    <>
      <Figure
        label={phrase('A contour every')}
        measure="elevation"
        value={site.contours}
        placeholder={phrase('none')}
        commit={(interval) => edit({ 'set-contours': interval })}
        clear={() => edit({ 'set-contours': null })}
        hint={words ? phrase('The ground lies between {low} and {high}.', { low: words.low.text, high: words.high.text }) : ''}
      />
      <div class="buttons">
        {words && (
          <button type="button" onClick={() => choose(words.proposed)}>
            {phrase('Every {interval}', { interval: words.proposed_shown.text })}
          </button>
        )}
        <button type="button" disabled={site.contours === undefined} onClick={() => choose(null)}>
          {phrase('No contours')}
        </button>
      </div>
      {words?.unknown && (
        <p class="caution" data-severity="caution">
          <strong>{phrase('Caution:')}</strong> {phrase('On {area} of the lot the ground is unknown. Take spots beyond every edge of the dig.', { area: words.unknown.text })}
        </p>
      )}
      <ul class="legend" aria-label={phrase('Marks of the ground on the plan')}>
        <li data-mark="contour">{phrase('contour')}</li>
        <li data-mark="index">{phrase('every fifth contour')}</li>
        <li data-mark="breakline">{phrase('breakline')}</li>
        <li data-mark="unknown">{phrase('ground unknown')}</li>
        <li data-mark="benchmark">{phrase('benchmark')}</li>
      </ul>
    </>
  );
}
