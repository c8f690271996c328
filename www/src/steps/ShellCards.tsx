// The catalogue, a card to a shell: its shape in plan, its size and depths.
import { useMemo } from 'preact/hooks';
import type { ShellCard } from '../core/types.ts';
import { editOrTell } from '../state/actions.ts';
import { heard, phrase } from '../words/words.ts';

export function ShellCards({ cards, chosen }: { cards: ShellCard[]; chosen: string }) {
  const longest = Math.max(1, ...cards.map((card) => reach(card.outline)));
  return (
    <ul class="shells">
      {cards.map((card) => (
        <li key={card.name}>
          <button
            type="button"
            class="shell"
            aria-pressed={card.name === chosen}
            title={heard(card.note)}
            onClick={() =>
              editOrTell({ 'choose-shell': { catalogue: card.name } }, phrase('{name} was not put on the lot.', { name: card.name }))
            }
          >
            <Shape card={card} longest={longest} />
            <span class="shell-name">{card.name}</span>
            <span class="shell-size">
              {card.length.text} × {card.width.text}
            </span>
            <span class="shell-size">
              {phrase('{shallowest} to {deepest} deep', { shallowest: card.shallowest.text, deepest: card.deepest.text })}
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}

/** Greatest distance of the outline from the middle along its length, meters. */
function reach(flat: ArrayLike<number>): number {
  let most = 0;
  for (let i = 0; i < flat.length; i += 2) most = Math.max(most, Math.abs(flat[i] ?? 0));
  return most;
}

/** Flat x, y pairs as an svg path; y runs down there. */
export function pathOf(flat: ArrayLike<number>): string {
  let path = '';
  for (let i = 0; i + 1 < flat.length; i += 2) {
    path += `${i === 0 ? 'M' : 'L'}${(flat[i] ?? 0).toFixed(3)} ${(-(flat[i + 1] ?? 0)).toFixed(3)}`;
  }
  return path && `${path}Z`;
}

/** A shell as large as it may be. */
export const SmallShell = ({ card }: { card: ShellCard }) => <Shape card={card} longest={Math.max(1, reach(card.outline))} />;

/** All cards at one scale, so that a small shell looks small. */
function Shape({ card, longest }: { card: ShellCard; longest: number }) {
  const half = longest * 1.04;
  const paths = useMemo(() => {
    const facets = card.facets.map((facet) => ({ kind: facet.kind, d: pathOf(facet.points) }));
    return { facets, outline: pathOf(card.outline) };
  }, [card]);
  return (
    <svg class="shell-shape" viewBox={`${-half} ${-half * 0.56} ${2 * half} ${half * 1.12}`} aria-hidden="true">
      {paths.facets.map((facet, index) => (
        <path key={index} class="facet" data-kind={facet.kind} d={facet.d} />
      ))}
      <path class="outline" d={paths.outline} />
    </svg>
  );
}
