// The job as a map or a list of points for others: what of it, in which form.
import { useState } from 'preact/hooks';
import type { Finding, ListChoice, PlaceReading } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { Choice } from '../fields/Choice.tsx';
import { download, fileName } from '../job/files.ts';
import { Sheet } from '../job/Sheet.tsx';
import { editOrTell, say } from '../state/actions.ts';
import { written } from '../state/quantities.ts';
import { display, sheet, site } from '../state/store.ts';
import { Tick } from '../fields/Tick.tsx';

const FORMS = [
  { value: 'map', text: 'Map (GeoJSON, in degrees)' },
  { value: 'list', text: 'List of points (CSV)' },
] as const;
const FRAMES = [
  { value: 'feet', text: 'Feet' },
  { value: 'survey-feet', text: 'US survey feet' },
  { value: 'metres', text: 'Meters' },
  { value: 'degrees', text: 'Degrees (WGS 84)' },
] as const;
const ORDERS = [
  { value: 'north-first', text: 'Northing, then easting' },
  { value: 'east-first', text: 'Easting, then northing' },
] as const;
const PARTS = [
  ['lot', 'The lot'],
  ['features', 'What stands on it'],
  ['ground', 'Spots, breaklines, benchmark'],
  ['shell', 'The edge of the shell'],
  ['dig', 'Where the dig meets the ground'],
] as const;
type Part = (typeof PARTS)[number][0];

const close = (): void => {
  sheet.value = null;
};

export function WriteSheet() {
  const now = site.value;
  const [form, setForm] = useState<'map' | 'list'>(now?.origin ? 'map' : 'list');
  const [parts, setParts] = useState<Record<Part, boolean>>({ lot: true, features: true, ground: true, shell: true, dig: true });
  const [frame, setFrame] = useState<ListChoice['frame']>(now?.grid?.unit ?? display.value);
  const [order, setOrder] = useState<ListChoice['order']>('north-first');
  const [findings, setFindings] = useState<Finding[]>([]);
  const degrees = form === 'map' || frame === 'degrees';

  async function save(): Promise<void> {
    const { lot: corners, dig: _, ...rest } = parts;
    const question = form === 'map' ? { geojson: parts } : { points: { frame, order, corners, ...rest } };
    const answer = await written(question).catch(() => ({ text: null, findings: [STOPPED] }));
    setFindings(answer.findings);
    if (answer.text === null) return;
    const [name, type] = form === 'map' ? [`${fileName()}.geojson`, 'application/geo+json'] : [`${fileName()}-points.csv`, 'text/csv'];
    download(answer.text, name, type);
    close();
    say(`Saved as ${name}`, 'good');
  }

  return (
    <Sheet label="Write a map or a list" class="write-out" close={close}>
      <h2>Write a map or a list</h2>
      <Choice label="As" value={form} options={FORMS} choose={setForm} />
      <fieldset class="write-parts">
        <legend>What of it</legend>
        {PARTS.map(([part, label]) =>
          form === 'list' && part === 'dig' ? null : (
            <Tick key={part} label={label} on={parts[part]} set={(on) => setParts({ ...parts, [part]: on })} />
          ),
        )}
      </fieldset>
      {form === 'list' && (
        <>
          <Choice label="Coordinates in" value={frame} options={FRAMES} choose={setFrame} />
          <Choice label="Order" value={order} options={ORDERS} choose={setOrder} />
          {now?.grid && frame !== 'degrees' && (
            <p class="field-hint">The list has the coordinates of the survey that the site came from.</p>
          )}
        </>
      )}
      {degrees && <Origin laid={() => setFindings([])} />}
      <p class="field-hint">
        Curves are written as short straight lines: within 1 mm of a map's curve, within 1 in on a list. A drawing of
        the plan is no survey: stakes are set from checked control.
      </p>
      <div aria-live="polite">
        {findings.map((it) => (
          <p class="caution" data-severity={it.severity} key={it.code + it.pointer}>
            {it.message} {it.remedy}
          </p>
        ))}
      </div>
      <div class="buttons">
        <button type="button" class="main" onClick={() => void save()}>
          Save the file
        </button>
        <button type="button" onClick={close}>
          Cancel
        </button>
      </div>
    </Sheet>
  );
}

const STOPPED: Finding = {
  severity: 'fault',
  code: 'stopped',
  pointer: '',
  topic: 'clearances',
  scope: 'site',
  at: null,
  message: 'The part of the planner that writes it stopped.',
  remedy: 'Nothing is lost: try again.',
};

/** Where the site's origin lies, and a way to say it. */
function Origin({ laid }: { laid: () => void }) {
  const origin = site.value?.origin;
  const [text, setText] = useState('');
  const place = useAsked<PlaceReading>(
    text.trim() === '' ? null : (p) => p.read_place(text),
    [text],
    { origin: null, text: '', message: '' },
  );
  function lay(): void {
    if (!place.origin || !editOrTell({ 'set-origin': place.origin }, 'The origin was not laid there.')) return;
    setText('');
    laid();
  }
  return (
    <div class="field">
      <label for="write-origin">Latitude and longitude of the site's origin</label>
      <div class="write-origin">
        <input
          id="write-origin"
          type="text"
          autocomplete="off"
          value={text}
          placeholder={origin ? 'known; type another' : '36.451234, -84.307123'}
          aria-describedby="write-origin-word"
          aria-invalid={place.message !== ''}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <button type="button" disabled={!place.origin} onClick={lay}>
          Use this location
        </button>
      </div>
      <p class="field-word" id="write-origin-word" data-kind={place.message ? 'fault' : 'reads'} aria-live="polite">
        {place.message || (place.text ? `= ${place.text}` : origin ? 'The site is georeferenced.' : '')}
      </p>
    </div>
  );
}
