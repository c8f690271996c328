// How wide, how deep and how steep the hole is all round.
import type { SoilClass, ConstructionSettings } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Tick } from '../../fields/Tick.tsx';
import { english, phrase, phrased, type English } from '../../words/words.ts';
import { Line, Maybe, Part, put } from './shared.tsx';

export const SOILS: { value: SoilClass; text: English }[] = [
  { value: 'stable-rock', text: english('Stable rock: sides may be vertical') },
  { value: 'a', text: english('Type A: 3/4 to 1') },
  { value: 'b', text: english('Type B: 1 to 1') },
  { value: 'c', text: english('Type C, or not classified: 1 1/2 to 1') },
];

export function HolePart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title={phrase('Hole')} open>
      <Line works={works} part="dig" member="over_dig" measure="length" label={phrase('Over-dig at the sides')} />
      <Line works={works} part="dig" member="base_thickness" measure="length" label={phrase('Stone base under the floor')} />
      <Choice
        label={phrase('Soil class, by a competent person')}
        value={works.dig.soil}
        options={phrased(SOILS)}
        choose={(soil) => put(works, 'dig', { soil })}
        hint={phrase('Sets the side slope. Not classified counts as type C.')}
      />
      {works.dig.soil === 'a' && (
        <Tick
          label={phrase('Open for 24 hours at most')}
          on={works.dig.short_term ?? false}
          set={(short_term) => put(works, 'dig', { short_term })}
          hint={phrase('Type A up to 12 ft deep is then sloped at 1/2 to 1 (29 CFR 1926 Subpart P App. B). A competent person decides.')}
        />
      )}
      <Maybe
        works={works}
        part="dig"
        member="side_slope"
        measure="slope"
        label={phrase('Side slope instead (run to rise)')}
        placeholder={phrase('by the soil')}
        hint={phrase('Leave it empty to go by the soil.')}
      />
    </Part>
  );
}
