// Groundwater, and the pipe and sump that keep it down.
import { ask } from '../../core/planner.ts';
import type { ConstructionSettings } from '../../core/types.ts';
import { Figure } from '../../fields/fields.tsx';
import { pickPoint } from '../../plan/pick.ts';
import { edit, say } from '../../state/actions.ts';
import { drawing, site } from '../../state/store.ts';
import { phrase } from '../../words/words.ts';
import { Line, Part, put, without } from './shared.tsx';

export function WaterPart({ works }: { works: ConstructionSettings }) {
  function forget() {
    const { groundwater: _, ...rest } = works;
    return edit({ 'set-works': rest });
  }
  async function place(): Promise<void> {
    const tapped = await pickPoint(phrase('Mark where the dewatering pipe stands.'));
    const now = site.value?.works;
    if (!tapped || !now) return;
    const at = ask((p) => p.fitting_from_site(tapped[0], tapped[1], false), undefined);
    if (!at) {
      say(phrase('The pipe was not placed: there is no shell yet.'), 'bad');
      return;
    }
    put(now, 'dewatering', { at });
  }
  return (
    <Part title={phrase('Groundwater')} entry="groundwater">
      <Figure
        label={phrase('Highest groundwater, elevation')}
        measure="elevation"
        value={works.groundwater}
        placeholder={phrase('not entered')}
        commit={(groundwater) => edit({ 'set-works': { ...works, groundwater } })}
        clear={forget}
        hint={phrase('From a boring, a well or the dig itself, at the wettest time of the year. Left blank, groundwater is assumed at the rim (worst case).')}
      />
      <Line works={works} part="dewatering" member="diameter" measure="length" label={phrase('Dewatering pipe')} />
      <Line works={works} part="dewatering" member="above_rim" measure="length" label={phrase('Pipe above the rim')} />
      <div class="buttons">
        <button type="button" disabled={drawing.value !== null} onClick={() => void place()}>
          {phrase('Place the pipe on the plan')}
        </button>
        {works.dewatering.at && (
          <button type="button" onClick={() => without(works, 'dewatering', 'at')}>
            {phrase('Back to the deep end')}
          </button>
        )}
      </div>
      <Line
        works={works}
        part="dewatering"
        member="sump_depth"
        measure="length"
        label={phrase('Sump below the base')}
        hint={phrase('0 for none.')}
      />
      <Line works={works} part="dewatering" member="sump_width" measure="length" label={phrase('Width of the sump')} />
      <p class="caution" data-severity="caution">
        <strong>{phrase('Caution:')}</strong> {phrase('A shell that is emptied over high groundwater can float. Only a professional empties it, after this pipe has been pumped and the water stays down.')}
      </p>
    </Part>
  );
}
