// The rods that tie the coping to the deck.
import type { ConstructionSettings } from '../../core/types.ts';
import { Line, Part } from './shared.tsx';

export function TiesPart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title="Ties">
      <Line
        works={works}
        part="ties"
        member="spacing"
        measure="length"
        label="Tie spacing, at most"
        hint="Set evenly along the rim; none where the deck is left open."
      />
      <Line works={works} part="ties" member="length" measure="length" label="Length of a tie" />
    </Part>
  );
}
