// Stone: what it weighs, how it is placed, and the fabric round it.
import type { ConstructionSettings } from '../../core/types.ts';
import { Tick } from '../../fields/Tick.tsx';
import { phrase } from '../../words/words.ts';
import { Line, Part, put } from './shared.tsx';

export function StonePart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title={phrase('Stone')}>
      <Line works={works} part="stone" member="density" measure="density" label={phrase('Weight of loose stone')} />
      <Line
        works={works}
        part="stone"
        member="voids"
        measure="fraction"
        label={phrase('Voids')}
        hint={phrase("The air's share of the whole. A void ratio of 0.67 is 40% of the whole.")}
      />
      <Line works={works} part="stone" member="lift" measure="length" label={phrase('One lift of backfill')} />
      <Line works={works} part="waste" member="stone" measure="fraction" label={phrase('Stone waste')} />
      <Tick
        label={phrase('Geotextile between stone and soil')}
        on={works.stone.fabric}
        set={(fabric) => put(works, 'stone', { fabric })}
      />
      {works.stone.fabric && (
        <Line works={works} part="waste" member="fabric" measure="fraction" label={phrase('Geotextile waste')} />
      )}
    </Part>
  );
}
