// The dig and everything that goes into it and round it.
import type { Works } from '../door/works.ts';
import { BasesPart } from './dig/BasesPart.tsx';
import { DoubtPart } from './dig/DoubtPart.tsx';
import { GradingPart } from './dig/GradingPart.tsx';
import { HolePart } from './dig/HolePart.tsx';
import { LayersPart } from './dig/LayersPart.tsx';
import { Line, Part } from './dig/shared.tsx';
import { SidesPart } from './dig/SidesPart.tsx';
import { SpoilPart } from './dig/SpoilPart.tsx';
import { WaterPart } from './dig/WaterPart.tsx';

export function DigStep({ works }: { works: Works }) {
  return (
    <>
      <p class="caution" data-severity="caution">
        <strong>Caution:</strong> Call the utility-locating service and wait for the marks before anyone digs. A
        competent person classifies the soil on the site and decides how the sides are kept from falling in.
      </p>
      <HolePart works={works} />
      <SidesPart works={works} />
      <LayersPart works={works} />
      <BasesPart works={works} />
      <WaterPart works={works} />
      <GradingPart works={works} />
      <SpoilPart works={works} />
      <Part title="Stone">
        <Line works={works} part="stone" member="density" measure="density" label="Weight of loose stone" />
        <Line works={works} part="waste" member="stone" measure="fraction" label="Bought beyond the measure" />
      </Part>
      <Part title="Collar and deck">
        <Line works={works} part="collar" member="width" measure="length" label="Collar width" />
        <Line works={works} part="collar" member="depth" measure="length" label="Collar depth" />
        <Line works={works} part="collar" member="top_below_rim" measure="length" label="Collar top below the rim" />
        <Line works={works} part="deck" member="width" measure="length" label="Deck width" hint="0 for no deck." />
        <Line works={works} part="deck" member="thickness" measure="length" label="Deck thickness" />
        <Line works={works} part="deck" member="bed" measure="length" label="Stone bed under the deck" />
        <Line works={works} part="deck" member="fall" measure="fraction" label="Deck fall, away from the rim" />
        <Line works={works} part="waste" member="concrete" measure="fraction" label="Concrete beyond the measure" />
      </Part>
      <Part title="Ties">
        <Line works={works} part="ties" member="spacing" measure="length" label="Tie spacing, at most" />
        <Line works={works} part="ties" member="length" measure="length" label="Length of a tie" />
      </Part>
      <DoubtPart works={works} />
    </>
  );
}
