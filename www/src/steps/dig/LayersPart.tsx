// Soil in layers, an upright lower part, and a level step in the sides.
import type { SoilLayer, ConstructionSettings } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure, read } from '../../fields/fields.tsx';
import { phrase, phrased } from '../../words/words.ts';
import { SOILS } from './HolePart.tsx';
import { Maybe, Part, put, without } from './shared.tsx';

/** A first layer and a first bench, to be changed (arbitrary). */
const FIRST = '2 ft';

function usual(): number {
  const length = read(FIRST, 'length');
  return length.ok ? length.value : 0.5;
}

export function LayersPart({ works }: { works: ConstructionSettings }) {
  const { layers = [], bench } = works.dig;
  const change = (index: number, next: Partial<SoilLayer>) =>
    put(works, 'dig', { layers: layers.map((it, i) => (i === index ? { ...it, ...next } : it)) });
  function add(): void {
    const last = layers.at(-1);
    put(works, 'dig', { layers: [...layers, { down_to: (last?.down_to ?? 0) + usual(), soil: 'c' }] });
  }
  return (
    <Part title={phrase('Layers and bench')}>
      {layers.map((layer, index) => (
        <fieldset key={index} class="opening">
          <legend>{phrase('Layer {number} from the top', { number: index + 1 })}</legend>
          <Figure
            label={phrase('Down to, below the rim')}
            measure="length"
            value={layer.down_to}
            commit={(down_to) => change(index, { down_to })}
          />
          <Choice label={phrase('Its soil')} value={layer.soil} options={phrased(SOILS)} choose={(soil) => change(index, { soil })} />
          <Figure
            label={phrase('Its side slope instead')}
            measure="slope"
            value={layer.slope}
            placeholder={phrase('by the soil')}
            commit={(slope) => change(index, { slope })}
            clear={() => {
              const { slope: _, ...rest } = layer;
              return put(works, 'dig', { layers: layers.map((it, i) => (i === index ? rest : it)) });
            }}
          />
          <div class="buttons">
            <button type="button" onClick={() => put(works, 'dig', { layers: layers.filter((_, i) => i !== index) })}>
              {phrase('Remove this layer')}
            </button>
          </div>
        </fieldset>
      ))}
      <div class="buttons">
        <button type="button" onClick={add}>
          {phrase('Add a layer')}
        </button>
      </div>
      <p class="field-hint">
        {phrase('Below the last layer stands the soil set under Hole. A layer is sloped no steeper than any under it; a competent person decides.')}
      </p>
      <Maybe
        works={works}
        part="dig"
        member="upright_below"
        measure="length"
        label={phrase('Vertical below this depth')}
        placeholder={phrase('sloped all the way')}
      />
      {bench ? (
        <fieldset class="opening">
          <legend>{phrase('Bench')}</legend>
          <div class="pair">
            <Figure
              label={phrase('Depth below the rim')}
              measure="length"
              value={bench.depth}
              commit={(depth) => put(works, 'dig', { bench: { ...bench, depth } })}
            />
            <Figure
              label={phrase('Width of the bench')}
              measure="length"
              value={bench.width}
              commit={(width) => put(works, 'dig', { bench: { ...bench, width } })}
            />
          </div>
          <div class="buttons">
            <button type="button" onClick={() => without(works, 'dig', 'bench')}>
              {phrase('Remove the bench')}
            </button>
          </div>
        </fieldset>
      ) : (
        <div class="buttons">
          <button
            type="button"
            onClick={() => put(works, 'dig', { bench: { depth: usual(), width: usual() } })}
          >
            {phrase('Add a bench')}
          </button>
        </div>
      )}
      <p class="field-hint">
        {phrase('Vertical cuts and benches stand only where the soil allows: ask the competent person on the site first.')}
      </p>
    </Part>
  );
}
