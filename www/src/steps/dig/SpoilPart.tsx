// The spoil: what it is, what is used again, the pile that stays a while, and the trucks that take the rest.
import type { SpoilMaterial, ConstructionSettings } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure } from '../../fields/fields.tsx';
import { pickPoint } from '../../plan/pick.ts';
import { editOrTell } from '../../state/actions.ts';
import { Tick } from '../../fields/Tick.tsx';
import { Line, Maybe, Part, put, without } from './shared.tsx';

const MATERIALS: { value: SpoilMaterial; text: string }[] = [
  { value: 'sand', text: 'Sand or gravel' },
  { value: 'common-earth', text: 'Common earth' },
  { value: 'clay', text: 'Clay' },
  { value: 'rock', text: 'Blasted rock' },
];

export function SpoilPart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title="Spoil and trucks" open>
      <Choice
        label="Excavated material"
        value={works.dig.material}
        options={MATERIALS}
        choose={(material) => put(works, 'dig', { material })}
      />
      <Maybe
        works={works}
        part="dig"
        member="swell"
        measure="ratio"
        label="Swell instead (loose to bank)"
        placeholder="by the material"
        hint="Spoil swells differently from lot to lot: leave the last load open."
      />
      <Maybe
        works={works}
        part="dig"
        member="density"
        measure="density"
        label="Weight in the bank instead"
        placeholder="by the material"
        hint="Wet soil weighs more: then weight, not the bed, sets the loads."
      />
      <Tick
        label="Use spoil as fill round the deck"
        on={works.spoil.reuse}
        set={(reuse) => put(works, 'spoil', { reuse })}
        hint="Topsoil, roots and wet clay are no fill."
      />
      <Line works={works} part="haul" member="box_volume" measure="earth-volume" label="Truck bed, loose" />
      <Line works={works} part="haul" member="payload" measure="weight" label="Legal payload" />
      <Line works={works} part="haul" member="cycle" measure="minutes" label="Round trip time" />
      <Line works={works} part="haul" member="trucks" measure="count" label="Trucks" />
      <Pile works={works} />
    </Part>
  );
}

/** The pile: how much of the spoil, how it stands, and where. */
function Pile({ works }: { works: ConstructionSettings }) {
  const at = works.spoil.at;
  async function pick(): Promise<void> {
    const place = await pickPoint('Middle of the spoil pile: mark where it goes');
    if (place) {
      editOrTell({ 'set-works': { ...works, spoil: { ...works.spoil, at: place } } }, 'The pile was not placed.');
    }
  }
  const coordinate = (index: 0 | 1, label: string) =>
    at && (
      <Figure
        label={label}
        measure="long-length"
        value={at[index]}
        commit={(value) => put(works, 'spoil', { at: index === 0 ? [value, at[1]] : [at[0], value] })}
      />
    );
  return (
    <fieldset class="field-group">
      <legend>Pile on the lot</legend>
      <Line
        works={works}
        part="spoil"
        member="piled"
        measure="fraction"
        label="Share of the spoil stockpiled"
        hint="0 where all of it is loaded as it is dug."
      />
      <Line works={works} part="spoil" member="repose" measure="slope" label="Slope of repose (run to rise)" />
      <Line works={works} part="spoil" member="most_height" measure="length" label="No higher than" />
      <Line
        works={works}
        part="spoil"
        member="back"
        measure="length"
        label="Setback from the edge of the dig"
        hint="Never less than 2 ft (29 CFR 1926.651(j)(2)); a competent person may ask for more."
      />
      {coordinate(0, 'Middle of the pile, east')}
      {coordinate(1, 'Middle of the pile, north')}
      <div class="buttons">
        <button type="button" onClick={() => void pick()}>
          {at ? 'Move the pile' : 'Place the pile by hand'}
        </button>
        {at && (
          <button type="button" onClick={() => void without(works, 'spoil', 'at')}>
            Place it where it fits
          </button>
        )}
      </div>
      <p class="field-hint">
        {at
          ? 'Placed by hand; conflicts are listed under Quantities.'
          : 'Placed nearest to the shell where it fits, or in a spoil area drawn on the lot.'}
      </p>
    </fieldset>
  );
}
