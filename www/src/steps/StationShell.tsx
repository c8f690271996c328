// A shell whose floor is told by stations along its length, as data sheets give it: a rectangle, or an outline drawn
// round a brochure’s picture. The record is made and looked at by the core while it is typed.
import { useId, useState } from 'preact/hooks';
import type { Finding, Measure, ShellFigures, ShellRecord, TracedOutline } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { editOrTell } from '../state/actions.ts';
import { display } from '../state/store.ts';
import { english, heard, phrase, type English } from '../words/words.ts';

/** A start to type over: 14 by 30 ft with corners of 3 ft. */
const RECTANGLE = { length: 9.144, width: 4.2672, corner: 0.9144 };

const start = (): Omit<ShellFigures, 'outline'> => ({
  name: phrase('My shell by stations'),
  coping: 0.3048,
  waterline: 0.1524,
  thickness: 0.0095,
  draft: 0,
  cove: 0,
  weight: null,
});

const TABLE = {
  feet: "0, 3'6\"\n10, 3'6\"\n20, 6', 8', 3'6\"\n30, 6', 7', 3'6\"",
  metres: '0, 1.05\n3, 1.05\n6, 1.8, 2.4, 1.05\n9.144, 1.8, 2.1, 1.05',
};

type Told = { shell: ShellRecord | null; findings: Finding[] };
type Number = Exclude<keyof ShellFigures, 'name' | 'weight' | 'outline'>;

const SIDES: [keyof typeof RECTANGLE, English][] = [
  ['length', english('Length inside')],
  ['width', english('Width inside')],
  ['corner', english('Corner radius')],
];

const LINES: [Number, English, Measure][] = [
  ['coping', english('Coping width'), 'length'],
  ['waterline', english('Water below the rim'), 'length'],
  ['thickness', english('Thickness of wall and floor'), 'length'],
  ['draft', english('Draft of the wall, run to depth'), 'ratio'],
  ['cove', english('Cove between wall and floor'), 'length'],
];

export function StationShell({ traced }: { traced?: TracedOutline }) {
  const id = useId();
  const system = display.value;
  const [rectangle, setRectangle] = useState(RECTANGLE);
  const [rest, setRest] = useState(start);
  const [text, setText] = useState<string | null>(null);
  const table = text ?? TABLE[system];
  const value = useAsked<Told>(
    (p) => p.shell_by_stations({ ...rest, outline: traced ? { traced } : { rectangle } }, table),
    [rest, rectangle, traced, table, system],
    { shell: null, findings: [] },
  );
  const faults = value.findings.filter((it) => it.severity === 'fault');
  const { shell } = value;
  return (
    <>
      <TextField label={phrase('Name of the shell')} value={rest.name} commit={(name) => setRest({ ...rest, name })} />
      <div class="pairs">
        {!traced &&
          SIDES.map(([member, label]) => (
            <Figure
              key={member}
              label={phrase(label)}
              measure="length"
              value={rectangle[member]}
              commit={(figure) => {
                setRectangle((now) => ({ ...now, [member]: figure }));
                return [];
              }}
            />
          ))}
        {LINES.map(([member, label, measure]) => (
          <Figure
            key={member}
            label={phrase(label)}
            measure={measure}
            value={rest[member]}
            commit={(figure) => {
              setRest((now) => ({ ...now, [member]: figure }));
              return [];
            }}
          />
        ))}
        <Figure
          label={phrase('Weight, empty')}
          measure="weight"
          value={rest.weight ?? undefined}
          commit={(weight) => {
            setRest((now) => ({ ...now, weight }));
            return [];
          }}
          clear={() => {
            setRest((now) => ({ ...now, weight: null }));
            return [];
          }}
        />
      </div>
      <div class="field">
        <label for={id}>{phrase('Stations, one to a line')}</label>
        <textarea
          id={id}
          rows={5}
          spellcheck={false}
          value={table}
          aria-invalid={faults.length > 0}
          aria-describedby={`${id}-hint ${id}-word`}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <p id={`${id}-hint`} class="field-hint">
          {phrase('From the shallow end, depth below the rim, width of the level floor, depth of the wall; parted by commas. Without a width the floor reaches from wall to wall.')}
        </p>
        <div id={`${id}-word`} aria-live="polite">
          {value.findings.slice(0, 8).map((it) => (
            <p class="field-word" data-kind={it.severity === 'fault' ? 'fault' : undefined} key={it.pointer + it.message}>
              {/^\/\d+$/.test(it.pointer) ? `${phrase('Line {number}:', { number: it.pointer.slice(1) })} ` : ''}
              {heard(it.message)} {heard(it.remedy)}
            </p>
          ))}
        </div>
      </div>
      <button
        type="button"
        class="main"
        disabled={!shell || faults.length > 0}
        onClick={() => shell && editOrTell({ 'choose-shell': { own: shell } }, phrase('This shell was not taken.'))}
      >
        {phrase('Put the shell by stations on the lot')}
      </button>
    </>
  );
}
