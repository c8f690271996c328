// Stone: what it weighs, how it is placed, and the fabric round it.
import type { ConstructionSettings } from '../../core/types.ts';
import { Tick } from '../../fields/Tick.tsx';
import { Line, Part, put } from './shared.tsx';

export function StonePart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title="Stone">
      <Line works={works} part="stone" member="density" measure="density" label="Weight of loose stone" />
      <Line
        works={works}
        part="stone"
        member="voids"
        measure="fraction"
        label="Voids"
        hint="The air's share of the whole. A void ratio of 0.67 is 40% of the whole."
      />
      <Line works={works} part="stone" member="lift" measure="length" label="One lift of backfill" />
      <Line works={works} part="waste" member="stone" measure="fraction" label="Stone waste" />
      <Tick
        label="Geotextile between stone and soil"
        on={works.stone.fabric}
        set={(fabric) => put(works, 'stone', { fabric })}
      />
      {works.stone.fabric && (
        <Line works={works} part="waste" member="fabric" measure="fraction" label="Geotextile waste" />
      )}
    </Part>
  );
}
