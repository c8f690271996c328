// Soil in layers, an upright lower part, and a level step in the sides.
import type { SoilLayer, ConstructionSettings } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure, read } from '../../fields/fields.tsx';
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
    <Part title="Layers and bench">
      {layers.map((layer, index) => (
        <fieldset key={index} class="opening">
          <legend>Layer {index + 1} from the top</legend>
          <Figure
            label="Down to, below the rim"
            measure="length"
            value={layer.down_to}
            commit={(down_to) => change(index, { down_to })}
          />
          <Choice label="Its soil" value={layer.soil} options={SOILS} choose={(soil) => change(index, { soil })} />
          <Figure
            label="Its side slope instead"
            measure="slope"
            value={layer.slope}
            placeholder="by the soil"
            commit={(slope) => change(index, { slope })}
            clear={() => {
              const { slope: _, ...rest } = layer;
              return put(works, 'dig', { layers: layers.map((it, i) => (i === index ? rest : it)) });
            }}
          />
          <div class="buttons">
            <button type="button" onClick={() => put(works, 'dig', { layers: layers.filter((_, i) => i !== index) })}>
              Remove this layer
            </button>
          </div>
        </fieldset>
      ))}
      <div class="buttons">
        <button type="button" onClick={add}>
          Add a layer
        </button>
      </div>
      <p class="field-hint">
        Below the last layer stands the soil set under Hole. A layer is sloped no steeper than any under it; a competent
        person decides.
      </p>
      <Maybe
        works={works}
        part="dig"
        member="upright_below"
        measure="length"
        label="Vertical below this depth"
        placeholder="sloped all the way"
      />
      {bench ? (
        <fieldset class="opening">
          <legend>Bench</legend>
          <div class="pair">
            <Figure
              label="Depth below the rim"
              measure="length"
              value={bench.depth}
              commit={(depth) => put(works, 'dig', { bench: { ...bench, depth } })}
            />
            <Figure
              label="Width of the bench"
              measure="length"
              value={bench.width}
              commit={(width) => put(works, 'dig', { bench: { ...bench, width } })}
            />
          </div>
          <div class="buttons">
            <button type="button" onClick={() => without(works, 'dig', 'bench')}>
              Remove the bench
            </button>
          </div>
        </fieldset>
      ) : (
        <div class="buttons">
          <button
            type="button"
            onClick={() => put(works, 'dig', { bench: { depth: usual(), width: usual() } })}
          >
            Add a bench
          </button>
        </div>
      )}
      <p class="field-hint">
        Vertical cuts and benches stand only where the soil allows: ask the competent person on the site first.
      </p>
    </Part>
  );
}
