// Spot elevations, typed or pasted as a table.
import { useId, useState } from 'preact/hooks';
import type { Finding } from '../door/shapes.ts';
import { read, show, told } from '../fields/fields.tsx';
import { display } from '../state/store.ts';
import { readSpots, writeSpots, type LineFault, type Spot } from './spots.ts';

export function SpotTable({ spots, set }: { spots: Spot[]; set: (spots: Spot[]) => Finding[] }) {
  const id = useId();
  const units = display.value;
  const [typed, setTyped] = useState<string | null>(null);
  const [faults, setFaults] = useState<LineFault[]>([]);
  const [refused, setRefused] = useState<string | undefined>();
  const written = writeSpots(spots, show);

  function take(): void {
    if (typed === null || typed === written) return restore();
    const table = readSpots(typed, read);
    setFaults(table.faults);
    if (table.faults.length > 0) return;
    const sentence = told(set(table.spots));
    setRefused(sentence);
    if (sentence === undefined) setTyped(null);
  }

  function restore(): void {
    setTyped(null);
    setFaults([]);
    setRefused(undefined);
  }

  return (
    <div class="field">
      <label for={id}>Spots: east, north, elevation ({units})</label>
      <textarea
        id={id}
        rows={12}
        spellcheck={false}
        value={typed ?? written}
        aria-invalid={faults.length > 0 || refused !== undefined}
        aria-describedby={`${id}-word`}
        onInput={(event) => setTyped(event.currentTarget.value)}
      />
      <div id={`${id}-word`} aria-live="polite">
        {faults.map((fault) => (
          <p class="field-word" data-kind="fault" key={`${fault.line} ${fault.message}`}>
            Line {fault.line}: {fault.message}
          </p>
        ))}
        {refused && (
          <p class="field-word" data-kind="fault">
            {refused}
          </p>
        )}
      </div>
      <div class="buttons">
        <button type="button" class="main" disabled={typed === null} onClick={take}>
          Take these spots
        </button>
        <button type="button" disabled={typed === null} onClick={restore}>
          Put back
        </button>
      </div>
      <p class="field-hint">
        {spots.length} spots. One to a line, parted by spaces, commas or tabs; paste from a spreadsheet. East and north
        count from the site's origin.
      </p>
    </div>
  );
}
