// The rods that tie the coping to the deck.
import type { ConstructionSettings } from '../../core/types.ts';
import { phrase } from '../../words/words.ts';
import { Line, Part } from './shared.tsx';

export function TiesPart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title={phrase('Ties')}>
      <Line
        works={works}
        part="ties"
        member="spacing"
        measure="length"
        label={phrase('Tie spacing, at most')}
        hint={phrase('Set evenly along the rim; none where the deck is left open.')}
      />
      <Line works={works} part="ties" member="length" measure="length" label={phrase('Length of a tie')} />
    </Part>
  );
}
