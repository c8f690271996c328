// A shell of one's own: a rectangle typed in, or a file for every other shape.
import { useRef, useState } from 'preact/hooks';
import { Figure } from '../fields/fields.tsx';
import { FileInput } from '../fields/FileInput.tsx';
import { TextField } from '../fields/TextField.tsx';
import { editOrTell } from '../state/actions.ts';
import { openShellFile } from '../job/files.ts';
import { rectangleShell, type RectangleDraft } from './rectangle.ts';
import { Fold } from '../fields/Fold.tsx';
import { StationShell } from './StationShell.tsx';
import { TracedShell } from './TracedShell.tsx';
import shellSample from './shell-sample.json?raw';

/** A start to type over, meters: 12 by 26 ft, 3 ft 6 in to 6 ft, corners of 2 ft. */
const START: RectangleDraft = {
  name: 'My shell',
  length: 7.9248,
  width: 3.6576,
  corner: 0.6096,
  shallow: 1.0668,
  deep: 1.8288,
  break: 3.048,
  coping: 0.3048,
  waterline: 0.1524,
};

const LINES: [keyof RectangleDraft & string, string][] = [
  ['length', 'Length inside'],
  ['width', 'Width inside'],
  ['corner', 'Corner radius'],
  ['shallow', 'Floor below the rim, shallow end'],
  ['deep', 'Floor below the rim, deep end'],
  ['break', 'Break, from the shallow end'],
  ['coping', 'Coping width'],
  ['waterline', 'Water below the rim'],
];

export function OwnShell() {
  const [draft, setDraft] = useState(START);
  const picker = useRef<HTMLInputElement>(null);
  return (
    <>
      <h3>A rectangle, typed in</h3>
      <TextField label="Name" value={draft.name} commit={(name) => setDraft({ ...draft, name })} />
      <div class="pairs">
        {LINES.map(([member, label]) => (
          <Figure
            key={member}
            label={label}
            measure="length"
            value={draft[member] as number}
            commit={(value) => {
              setDraft((now) => ({ ...now, [member]: value }));
              return [];
            }}
          />
        ))}
      </div>
      <button
        type="button"
        class="main"
        onClick={() => editOrTell({ 'choose-shell': { own: rectangleShell(draft) } }, 'This shell was not taken.')}
      >
        Put this shell on the lot
      </button>
      <p class="field-hint">Take the figures from the maker's data sheet for this very shell.</p>
      <Fold class="card" head="A rectangle, its floor by stations">
        {() => <StationShell />}
      </Fold>
      <Fold class="card" head="Any shape, drawn round a brochure’s picture">
        {() => <TracedShell />}
      </Fold>
      <h3>Any other shape, from a file</h3>
      <FileInput picker={picker} take={openShellFile} />
      <button type="button" onClick={() => picker.current?.click()}>
        Load a shell file
      </button>
      <details class="card">
        <summary>How such a file looks</summary>
        <p class="field-hint">
          Meters, seen from above, the origin in the middle and x toward the deep end. A third figure at a corner makes
          the stretch after it an arc: the tangent of a quarter of its angle, 1 for a half circle, plus to the left.
          Each piece of floor gives its depth below the rim at each of its corners.
        </p>
        <pre tabIndex={0}>{shellSample}</pre>
      </details>
    </>
  );
}
