// A shell of one's own: a rectangle typed in, or a file for every other shape.
import { useRef, useState } from 'preact/hooks';
import { Figure } from '../fields/fields.tsx';
import { FileInput } from '../fields/FileInput.tsx';
import { TextField } from '../fields/TextField.tsx';
import { editOrTell } from '../state/actions.ts';
import { openShellFile } from '../job/files.ts';
import { rectangleShell, type RectangleDraft } from './rectangle.ts';
import { Fold } from '../fields/Fold.tsx';
import { english, phrase, type English } from '../words/words.ts';
import { StationShell } from './StationShell.tsx';
import { TracedShell } from './TracedShell.tsx';
import shellSample from './shell-sample.json?raw';

/** A start to type over, meters: 12 by 26 ft, 3 ft 6 in to 6 ft, corners of 2 ft. */
const start = (): RectangleDraft => ({
  name: phrase('My shell'),
  length: 7.9248,
  width: 3.6576,
  corner: 0.6096,
  shallow: 1.0668,
  deep: 1.8288,
  break: 3.048,
  coping: 0.3048,
  waterline: 0.1524,
});

const LINES: [keyof RectangleDraft & string, English][] = [
  ['length', english('Length inside')],
  ['width', english('Width inside')],
  ['corner', english('Corner radius')],
  ['shallow', english('Floor below the rim, shallow end')],
  ['deep', english('Floor below the rim, deep end')],
  ['break', english('Break, from the shallow end')],
  ['coping', english('Coping width')],
  ['waterline', english('Water below the rim')],
];

export function OwnShell() {
  const [draft, setDraft] = useState(start);
  const picker = useRef<HTMLInputElement>(null);
  return (
    <>
      <h3>{phrase('A rectangle, typed in')}</h3>
      <TextField label={phrase('Name')} value={draft.name} commit={(name) => setDraft({ ...draft, name })} />
      <div class="pairs">
        {LINES.map(([member, label]) => (
          <Figure
            key={member}
            label={phrase(label)}
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
        onClick={() => editOrTell({ 'choose-shell': { own: rectangleShell(draft) } }, phrase('This shell was not taken.'))}
      >
        {phrase('Put this shell on the lot')}
      </button>
      <p class="field-hint">{phrase("Take the figures from the maker's data sheet for this very shell.")}</p>
      <Fold class="card" head={phrase('A rectangle, its floor by stations')}>
        {() => <StationShell />}
      </Fold>
      <Fold class="card" head={phrase('Any shape, drawn round a brochure’s picture')}>
        {() => <TracedShell />}
      </Fold>
      <h3>{phrase('Any other shape, from a file')}</h3>
      <FileInput picker={picker} take={openShellFile} />
      <button type="button" onClick={() => picker.current?.click()}>
        {phrase('Load a shell file')}
      </button>
      <details class="card">
        <summary>{phrase('How such a file looks')}</summary>
        <p class="field-hint">
          {phrase('Meters, seen from above, the origin in the middle and x toward the deep end. A third figure at a corner makes the stretch after it an arc: the tangent of a quarter of its angle, 1 for a half circle, plus to the left. Each piece of floor gives its depth below the rim at each of its corners.')}
        </p>
        <pre tabIndex={0}>{shellSample}</pre>
      </details>
    </>
  );
}
