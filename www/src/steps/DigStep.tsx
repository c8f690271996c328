// The dig and everything that goes into it and round it.
import type { SoilClass, SpoilMaterial, Works } from '../door/works.ts';
import type { Finding, Measure } from '../door/shapes.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { edit } from '../state/actions.ts';

const SOILS: { value: SoilClass; text: string }[] = [
  { value: 'stable-rock', text: 'Stable rock: sides may stand upright' },
  { value: 'a', text: 'Type A: 3/4 to 1' },
  { value: 'b', text: 'Type B: 1 to 1' },
  { value: 'c', text: 'Type C, or not classified: 1 1/2 to 1' },
];

const MATERIALS: { value: SpoilMaterial; text: string }[] = [
  { value: 'sand', text: 'Sand or gravel' },
  { value: 'common-earth', text: 'Common earth' },
  { value: 'clay', text: 'Clay' },
  { value: 'rock', text: 'Blasted rock' },
];

type Part = keyof Works;

/** Sets one figure of one part of the work; `undefined` takes it out. */
function put<P extends Part>(works: Works, part: P, change: Partial<Works[P]>): Finding[] {
  return edit({ 'set-works': { ...works, [part]: { ...works[part], ...change } } });
}

interface LineProps<P extends Part> {
  works: Works;
  part: P;
  member: keyof Works[P] & string;
  label: string;
  measure: Measure;
  hint?: string;
}

function Line<P extends Part>({ works, part, member, ...rest }: LineProps<P>) {
  const value = (works[part] as Record<string, number | undefined>)[member];
  const commit = (it: number) => put(works, part, { [member]: it } as unknown as Partial<Works[P]>);
  return <Figure {...rest} value={value} commit={commit} />;
}

function Part({ title, children, open }: { title: string; children: preact.ComponentChildren; open?: boolean }) {
  return (
    <details class="part" open={open ?? false}>
      <summary>{title}</summary>
      <div class="part-body">{children}</div>
    </details>
  );
}

function without(works: Works, member: 'side_slope' | 'swell'): Finding[] {
  const dig = { ...works.dig };
  delete dig[member];
  return edit({ 'set-works': { ...works, dig } });
}

export function DigStep({ works }: { works: Works }) {
  return (
    <>
      <p class="caution" data-severity="caution">
        <strong>Caution:</strong> Call the utility-locating service and wait for the marks before anyone digs. A
        competent person classifies the soil on the site and decides how the sides are kept from falling in.
      </p>
      <Part title="Hole" open>
        <Line works={works} part="dig" member="over_dig" measure="length" label="Over-dig at the sides" />
        <Line works={works} part="dig" member="base_thickness" measure="length" label="Stone base under the floor" />
        <Choice
          label="Soil, as a competent person classed it"
          value={works.dig.soil}
          options={SOILS}
          choose={(soil) => put(works, 'dig', { soil })}
          hint="Sets the side slope. Not classified counts as type C."
        />
        <Figure
          label="Side slope instead (run to rise)"
          measure="slope"
          value={works.dig.side_slope}
          placeholder="by the soil"
          commit={(side_slope) => put(works, 'dig', { side_slope })}
          clear={() => without(works, 'side_slope')}
          hint="Leave it empty to go by the soil."
        />
      </Part>
      <Part title="Spoil and trucks" open>
        <Choice
          label="What is dug out"
          value={works.dig.material}
          options={MATERIALS}
          choose={(material) => put(works, 'dig', { material })}
        />
        <Figure
          label="Swell instead (loose to bank)"
          measure="ratio"
          value={works.dig.swell}
          placeholder="by the material"
          commit={(swell) => put(works, 'dig', { swell })}
          clear={() => without(works, 'swell')}
          hint="Spoil swells differently from lot to lot: leave the last load open."
        />
        <Line works={works} part="haul" member="box_volume" measure="earth-volume" label="Truck box, loose" />
        <Line works={works} part="haul" member="payload" measure="weight" label="Legal payload" />
      </Part>
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
      <Part title="Ties and dewatering pipe">
        <Line works={works} part="ties" member="spacing" measure="length" label="Tie spacing, at most" />
        <Line works={works} part="ties" member="length" measure="length" label="Length of a tie" />
        <Line works={works} part="dewatering" member="diameter" measure="length" label="Dewatering pipe" />
        <Line works={works} part="dewatering" member="above_rim" measure="length" label="Pipe above the rim" />
        <p class="field-hint">
          A shell that is emptied over high groundwater can float. Only a professional empties it, after pumping this
          pipe.
        </p>
      </Part>
    </>
  );
}
