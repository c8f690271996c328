// Groundwater, and the pipe and sump that keep it down.
import type { Works } from '../../door/works.ts';
import { Figure } from '../../fields/fields.tsx';
import { edit } from '../../state/actions.ts';
import { Line, Part } from './shared.tsx';

export function WaterPart({ works }: { works: Works }) {
  function forget() {
    const { groundwater: _, ...rest } = works;
    return edit({ 'set-works': rest });
  }
  return (
    <Part title="Groundwater">
      <Figure
        label="Highest groundwater, elevation"
        measure="elevation"
        value={works.groundwater}
        placeholder="not known"
        commit={(groundwater) => edit({ 'set-works': { ...works, groundwater } })}
        clear={forget}
        hint="From a boring, a well or the dig itself, at the wettest time of the year. Left empty it is not known, and the worst is reckoned with."
      />
      <Line works={works} part="dewatering" member="diameter" measure="length" label="Dewatering pipe" />
      <Line works={works} part="dewatering" member="above_rim" measure="length" label="Pipe above the rim" />
      <Line
        works={works}
        part="dewatering"
        member="sump_depth"
        measure="length"
        label="Sump below the base"
        hint="0 for none."
      />
      <Line works={works} part="dewatering" member="sump_width" measure="length" label="Width of the sump" />
      <p class="caution" data-severity="caution">
        <strong>Caution:</strong> A shell that is emptied over high groundwater can float. Only a professional empties
        it, after this pipe has been pumped and the water stays down.
      </p>
    </Part>
  );
}
