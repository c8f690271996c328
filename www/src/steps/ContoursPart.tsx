// Contours on the plan: their interval, and what the plan's marks of the ground mean.
import type { Site } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { ask } from '../core/planner.ts';

export function ContoursPart({ site }: { site: Site }) {
  const words = ask((p) => p.ground(), null);
  const choose = (interval: number | null) =>
    editOrTell({ 'set-contours': interval }, 'The contours were not changed.');
  return (
    <>
      <Figure
        label="A contour every"
        measure="elevation"
        value={site.contours}
        placeholder="none"
        commit={(interval) => edit({ 'set-contours': interval })}
        clear={() => edit({ 'set-contours': null })}
        hint={words ? `The ground lies between ${words.low.text} and ${words.high.text}.` : ''}
      />
      <div class="buttons">
        {words && (
          <button type="button" onClick={() => choose(words.proposed)}>
            Every {words.proposed_shown.text}
          </button>
        )}
        <button type="button" disabled={site.contours === undefined} onClick={() => choose(null)}>
          No contours
        </button>
      </div>
      {words?.unknown && (
        <p class="caution" data-severity="caution">
          <strong>Caution:</strong> On {words.unknown.text} of the lot the ground is unknown. Take spots beyond every
          edge of the dig.
        </p>
      )}
      <ul class="legend" aria-label="Marks of the ground on the plan">
        <li data-mark="contour">contour</li>
        <li data-mark="index">every fifth contour</li>
        <li data-mark="breakline">breakline</li>
        <li data-mark="unknown">ground unknown</li>
        <li data-mark="benchmark">benchmark</li>
      </ul>
    </>
  );
}
