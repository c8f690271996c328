// How wide, how deep and how steep the hole is all round.
import type { SoilClass, ConstructionSettings } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Tick } from '../../fields/Tick.tsx';
import { Line, Maybe, Part, put } from './shared.tsx';

export const SOILS: { value: SoilClass; text: string }[] = [
  { value: 'stable-rock', text: 'Stable rock: sides may be vertical' },
  { value: 'a', text: 'Type A: 3/4 to 1' },
  { value: 'b', text: 'Type B: 1 to 1' },
  { value: 'c', text: 'Type C, or not classified: 1 1/2 to 1' },
];

export function HolePart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title="Hole" open>
      <Line works={works} part="dig" member="over_dig" measure="length" label="Over-dig at the sides" />
      <Line works={works} part="dig" member="base_thickness" measure="length" label="Stone base under the floor" />
      <Choice
        label="Soil class, by a competent person"
        value={works.dig.soil}
        options={SOILS}
        choose={(soil) => put(works, 'dig', { soil })}
        hint="Sets the side slope. Not classified counts as type C."
      />
      {works.dig.soil === 'a' && (
        <Tick
          label="Open for 24 hours at most"
          on={works.dig.short_term ?? false}
          set={(short_term) => put(works, 'dig', { short_term })}
          hint="Type A up to 12 ft deep is then sloped at 1/2 to 1 (29 CFR 1926 Subpart P App. B). A competent person decides."
        />
      )}
      <Maybe
        works={works}
        part="dig"
        member="side_slope"
        measure="slope"
        label="Side slope instead (run to rise)"
        placeholder="by the soil"
        hint="Leave it empty to go by the soil."
      />
    </Part>
  );
}
