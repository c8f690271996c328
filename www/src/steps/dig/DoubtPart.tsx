// How far figures may be out: what the low and the high of a quantity come from.
import type { ConstructionSettings } from '../../core/types.ts';
import { phrase } from '../../words/words.ts';
import { Line, Part } from './shared.tsx';

export function DoubtPart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title={phrase('Uncertainty of the figures')}>
      <Line
        works={works}
        part="doubt"
        member="swell"
        measure="fraction"
        label={phrase('Swell, plus or minus')}
        hint={phrase('A share of what the swell adds: 20% of a swell of 1.25 is 1.20 to 1.30.')}
      />
      <Line works={works} part="doubt" member="over_dig" measure="length" label={phrase('Over-dig, plus or minus')} />
      <Line works={works} part="doubt" member="ground" measure="length" label={phrase('Ground, plus or minus')} />
    </Part>
  );
}
