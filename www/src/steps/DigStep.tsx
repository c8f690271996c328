// The dig and everything that goes into it and round it.
import { FromBook } from '../book/FromBook.tsx';
import type { ConstructionSettings } from '../core/types.ts';
import { phrase } from '../words/words.ts';
import { BasesPart } from './dig/BasesPart.tsx';
import { DeckPart } from './dig/DeckPart.tsx';
import { DoubtPart } from './dig/DoubtPart.tsx';
import { GradingPart } from './dig/GradingPart.tsx';
import { HolePart } from './dig/HolePart.tsx';
import { LayersPart } from './dig/LayersPart.tsx';
import { PipePart } from './dig/PipePart.tsx';
import { SidesPart } from './dig/SidesPart.tsx';
import { SpoilPart } from './dig/SpoilPart.tsx';
import { StonePart } from './dig/StonePart.tsx';
import { TiesPart } from './dig/TiesPart.tsx';
import { WaterPart } from './dig/WaterPart.tsx';

export function DigStep({ works }: { works: ConstructionSettings }) {
  return (
    <>
      <p class="caution" data-severity="caution">
        <strong>{phrase('Caution:')}</strong> {phrase('Call the utility-locating service and wait for the marks before anyone digs. A competent person classifies the soil on the site and decides how the sides are kept from falling in.')}
      </p>
      <FromBook kinds={['works', 'deck', 'truck']} />
      <HolePart works={works} />
      <SidesPart works={works} />
      <LayersPart works={works} />
      <BasesPart works={works} />
      <WaterPart works={works} />
      <GradingPart works={works} />
      <SpoilPart works={works} />
      <StonePart works={works} />
      <DeckPart works={works} />
      <TiesPart works={works} />
      <PipePart works={works} />
      <DoubtPart works={works} />
    </>
  );
}
