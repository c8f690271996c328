// Collar, deck and pad: the ring round the rim, what is drawn beyond it, joints and rods.
import type { ConstructionSettings } from '../../core/types.ts';
import { phrase } from '../../words/words.ts';
import { Planned } from './Planned.tsx';
import { Line, Part } from './shared.tsx';

export function DeckPart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title={phrase('Collar and deck')}>
      <Line works={works} part="collar" member="width" measure="length" label={phrase('Collar width')} />
      <Line works={works} part="collar" member="depth" measure="length" label={phrase('Collar depth')} />
      <Line works={works} part="collar" member="top_below_rim" measure="length" label={phrase('Collar top below the rim')} />
      <Line works={works} part="collar" member="bars" measure="count" label={phrase('Rebar around the collar')} />
      <Line works={works} part="deck" member="width" measure="length" label={phrase('Deck width')} hint={phrase('0 for no ring.')} />
      <Line works={works} part="deck" member="thickness" measure="length" label={phrase('Deck thickness')} />
      <Line works={works} part="deck" member="bed" measure="length" label={phrase('Stone bed under the deck')} />
      <Line works={works} part="deck" member="fall" measure="fraction" label={phrase('Deck fall, away from the rim')} />
      <Planned
        kind="deck"
        text={phrase('Draw more deck')}
        hint={phrase('It is poured with the ring round the rim; where both lie it counts once.')}
      />
      <Planned kind="deck-opening" text={phrase('Draw an opening')} />
      <Planned kind="deck-steps" text={phrase('Draw steps')} hint={phrase("Enter the total rise on each step's card.")} />
      <Line works={works} part="deck" member="joint_spacing" measure="length" label={phrase('Control joint spacing, at most')} />
      <Line
        works={works}
        part="deck"
        member="rod_spacing"
        measure="length"
        label={phrase('Rebar spacing, each way')}
        hint={phrase('0 for none.')}
      />
      <Line works={works} part="pad" member="thickness" measure="length" label={phrase('Equipment pad, thickness')} />
      <Line works={works} part="pad" member="bed" measure="length" label={phrase('Stone bed under the pad')} />
      <Line works={works} part="waste" member="concrete" measure="fraction" label={phrase('Concrete waste')} />
      <Line works={works} part="waste" member="rods" measure="fraction" label={phrase('Rebar waste: laps')} />
    </Part>
  );
}
