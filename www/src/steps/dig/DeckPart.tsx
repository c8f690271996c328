// Collar, deck and pad: the ring round the rim, what is drawn beyond it, joints and rods.
import type { ConstructionSettings } from '../../core/types.ts';
import { Planned } from './Planned.tsx';
import { Line, Part } from './shared.tsx';

export function DeckPart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title="Collar and deck">
      <Line works={works} part="collar" member="width" measure="length" label="Collar width" />
      <Line works={works} part="collar" member="depth" measure="length" label="Collar depth" />
      <Line works={works} part="collar" member="top_below_rim" measure="length" label="Collar top below the rim" />
      <Line works={works} part="collar" member="bars" measure="count" label="Rebar around the collar" />
      <Line works={works} part="deck" member="width" measure="length" label="Deck width" hint="0 for no ring." />
      <Line works={works} part="deck" member="thickness" measure="length" label="Deck thickness" />
      <Line works={works} part="deck" member="bed" measure="length" label="Stone bed under the deck" />
      <Line works={works} part="deck" member="fall" measure="fraction" label="Deck fall, away from the rim" />
      <Planned
        kind="deck"
        text="Draw more deck"
        hint="It is poured with the ring round the rim; where both lie it counts once."
      />
      <Planned kind="deck-opening" text="Draw an opening" />
      <Planned kind="deck-steps" text="Draw steps" hint="Enter the total rise on each step's card." />
      <Line works={works} part="deck" member="joint_spacing" measure="length" label="Control joint spacing, at most" />
      <Line
        works={works}
        part="deck"
        member="rod_spacing"
        measure="length"
        label="Rebar spacing, each way"
        hint="0 for none."
      />
      <Line works={works} part="pad" member="thickness" measure="length" label="Equipment pad, thickness" />
      <Line works={works} part="pad" member="bed" measure="length" label="Stone bed under the pad" />
      <Line works={works} part="waste" member="concrete" measure="fraction" label="Concrete waste" />
      <Line works={works} part="waste" member="rods" measure="fraction" label="Rebar waste: laps" />
    </Part>
  );
}
