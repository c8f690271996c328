// The spoil: what it is, what is used again, the pile that stays a while, and the trucks that take the rest.
import type { SpoilMaterial, ConstructionSettings } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure } from '../../fields/fields.tsx';
import { pickPoint } from '../../plan/pick.ts';
import { editOrTell } from '../../state/actions.ts';
import { Tick } from '../../fields/Tick.tsx';
import { english, phrase, phrased, type English } from '../../words/words.ts';
import { Line, Maybe, Part, put, without } from './shared.tsx';

const MATERIALS: { value: SpoilMaterial; text: English }[] = [
  { value: 'sand', text: english('Sand or gravel') },
  { value: 'common-earth', text: english('Common earth') },
  { value: 'clay', text: english('Clay') },
  { value: 'rock', text: english('Blasted rock') },
];

export function SpoilPart({ works }: { works: ConstructionSettings }) {
  return (
    <Part title={phrase('Spoil and trucks')} open>
      <Choice
        label={phrase('Excavated material')}
        value={works.dig.material}
        options={phrased(MATERIALS)}
        choose={(material) => put(works, 'dig', { material })}
      />
      <Maybe
        works={works}
        part="dig"
        member="swell"
        measure="ratio"
        label={phrase('Swell instead (loose to bank)')}
        placeholder={phrase('by the material')}
        hint={phrase('Spoil swells differently from lot to lot: leave the last load open.')}
      />
      <Maybe
        works={works}
        part="dig"
        member="density"
        measure="density"
        label={phrase('Weight in the bank instead')}
        placeholder={phrase('by the material')}
        hint={phrase('Wet soil weighs more: then weight, not the bed, sets the loads.')}
      />
      <Tick
        label={phrase('Use spoil as fill round the deck')}
        on={works.spoil.reuse}
        set={(reuse) => put(works, 'spoil', { reuse })}
        hint={phrase('Topsoil, roots and wet clay are no fill.')}
      />
      <Line works={works} part="haul" member="box_volume" measure="earth-volume" label={phrase('Truck bed, loose')} />
      <Line works={works} part="haul" member="payload" measure="weight" label={phrase('Legal payload')} />
      <Line works={works} part="haul" member="cycle" measure="minutes" label={phrase('Round trip time')} />
      <Line works={works} part="haul" member="trucks" measure="count" label={phrase('Trucks')} />
      <Pile works={works} />
    </Part>
  );
}

/** The pile: how much of the spoil, how it stands, and where. */
function Pile({ works }: { works: ConstructionSettings }) {
  const at = works.spoil.at;
  async function pick(): Promise<void> {
    const place = await pickPoint(phrase('Middle of the spoil pile: mark where it goes'));
    if (place) {
      editOrTell({ 'set-works': { ...works, spoil: { ...works.spoil, at: place } } }, phrase('The pile was not placed.'));
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
      <legend>{phrase('Pile on the lot')}</legend>
      <Line
        works={works}
        part="spoil"
        member="piled"
        measure="fraction"
        label={phrase('Share of the spoil stockpiled')}
        hint={phrase('0 where all of it is loaded as it is dug.')}
      />
      <Line works={works} part="spoil" member="repose" measure="slope" label={phrase('Slope of repose (run to rise)')} />
      <Line works={works} part="spoil" member="most_height" measure="length" label={phrase('No higher than')} />
      <Line
        works={works}
        part="spoil"
        member="back"
        measure="length"
        label={phrase('Setback from the edge of the dig')}
        hint={phrase('Never less than 2 ft (29 CFR 1926.651(j)(2)); a competent person may ask for more.')}
      />
      {coordinate(0, phrase('Middle of the pile, east'))}
      {coordinate(1, phrase('Middle of the pile, north'))}
      <div class="buttons">
        <button type="button" onClick={() => void pick()}>
          {at ? phrase('Move the pile') : phrase('Place the pile by hand')}
        </button>
        {at && (
          <button type="button" onClick={() => void without(works, 'spoil', 'at')}>
            {phrase('Place it where it fits')}
          </button>
        )}
      </div>
      <p class="field-hint">
        {at
          ? phrase('Placed by hand; conflicts are listed under Quantities.')
          : phrase('Placed nearest to the shell where it fits, or in a spoil area drawn on the lot.')}
      </p>
    </fieldset>
  );
}
