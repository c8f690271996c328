// A map or a list of points on its way in: chosen or pasted, then looked at before anything changes.
import { useId, useRef, useState } from 'preact/hooks';
import type { Finding, MapSettings } from '../core/types.ts';
import { Sheet } from '../job/Sheet.tsx';
import { textOf } from '../job/files.ts';
import { fitPlan } from '../plan/keys.ts';
import { editOrTell, say } from '../state/actions.ts';
import { sheet } from '../state/store.ts';
import { SEVERITY } from '../fields/severity.ts';
import { incoming, lookAt, type Incoming } from './incoming.ts';
import { useLooked } from './looked.ts';
import { Meaning } from './Meaning.tsx';
import { Picture } from './Picture.tsx';
import { Things } from './Things.tsx';
import '../style/bring.css';
import { heard, phrase } from '../words/words.ts';

const close = (): void => {
  sheet.value = null;
  incoming.value = null;
};

export function BringSheet() {
  const now = incoming.value;
  return (
    <Sheet label={phrase('Bring in a map, a list or a survey')} class="bring" close={close}>
      {now ? <Look key={now.text} {...now} /> : <Pick />}
    </Sheet>
  );
}

/** A file to choose, or a text to paste. */
function Pick() {
  const id = useId();
  const picker = useRef<HTMLInputElement>(null);
  const [text, setText] = useState('');
  async function take(file: File | undefined): Promise<void> {
    const found = file && (await textOf(file));
    if (file && found !== undefined) lookAt(found, file.name);
  }
  return (
    <>
      <h2>{phrase('Bring in a map, a list or a survey')}</h2>
      <p>
        {phrase("A map as GeoJSON, such as an office's download of parcels; a list of points: number, northing, easting, elevation, description; or a surveyor's LandXML with its parcels, points and breaklines. You see everything before it comes in, and nothing leaves this device.")}
      </p>
      <input
        ref={picker}
        id="map-file"
        type="file"
        accept=".geojson,.json,.csv,.txt,.tsv,.pnt,.xml,text/*,application/json,application/geo+json,application/xml"
        class="unseen"
        tabIndex={-1}
        aria-hidden="true"
        onChange={(event) => void take(event.currentTarget.files?.[0])}
      />
      <button type="button" class="main" onClick={() => picker.current?.click()}>
        {phrase('Choose a file')}
      </button>
      <div class="field">
        <label for={id}>{phrase('Or paste it here')}</label>
        <textarea
          id={id}
          rows={7}
          spellcheck={false}
          value={text}
          placeholder={'1, 5000.00, 2000.00, 412.3, iron pin\n2, 5000.00, 2092.00, 411.9, iron pin\n\n36.451234, -84.307123'}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <p class="field-hint">{phrase('Points one to a line, places in degrees, or GeoJSON.')}</p>
      </div>
      <div class="buttons">
        <button type="button" disabled={text.trim() === ''} onClick={() => lookAt(text, phrase('The pasted text'))}>
          {phrase('Look at what was pasted')}
        </button>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </>
  );
}

/** What is in a text, what it is to be, and what would happen. Another text has another of these. */
function Look({ text, name }: Incoming) {
  const [wanted, setWanted] = useState<MapSettings | null>(null);
  const [given, setGiven] = useState<ReadonlyMap<number, string>>(new Map());
  const [held, setHeld] = useState<number | null>(null);
  const { reading, brought, settings, roles, busy } = useLooked(text, wanted, given);
  const { items } = reading;

  function give(indices: number[], role: string): void {
    const next = new Map(given);
    for (const i of indices) next.set(i, role);
    const lot = role === 'lot' ? indices[0] : undefined;
    if (lot !== undefined && settings) {
      // One lot: what was the lot before is proposed anew, round this one.
      for (const [i, before] of next) if (before === 'lot' && i !== lot) next.delete(i);
      for (const i of indices.slice(1)) next.delete(i);
      next.delete(lot);
      setWanted({ ...settings, lot, ring: null });
    }
    setGiven(next);
  }

  function set(change: Partial<MapSettings>): void {
    if (settings) setWanted({ ...settings, ...change });
  }

  function bring(): void {
    if (!brought.command) return;
    if (!editOrTell(brought.command, phrase('{name} was not brought in.', { name }))) return;
    close();
    fitPlan();
    say(`${phrase('{name} was brought in.', { name })} ${brought.told.map(heard).join(' ')}`, 'good');
  }

  const lot = roles.indexOf('lot');
  const findings = merged(reading.findings, brought.findings);
  return (
    <>
      <h2>{name}</h2>
      {busy && <p aria-live="polite">{phrase('The file is being read.')}</p>}
      {items.length > 0 && settings && (
        <div class="bring-look">
          <Picture items={items} roles={roles} held={held} hold={setHeld} />
          <Things items={items} roles={roles} held={held} give={give} hold={setHeld} />
          <Meaning reading={reading} settings={settings} rings={items[lot]?.rings ?? []} set={set} />
        </div>
      )}
      <div aria-live="polite">
        {brought.told.length > 0 && (
          <ul class="bring-told" aria-label={phrase('What will happen')}>
            {brought.told.map((sentence) => (
              <li key={sentence}>{heard(sentence)}</li>
            ))}
          </ul>
        )}
      </div>
      {findings.length > 0 && <Findings findings={findings} />}
      <div class="buttons">
        <button type="button" class="main" disabled={!brought.command} onClick={bring}>
          {phrase('Bring these in')}
        </button>
        <button type="button" onClick={() => (incoming.value = null)}>
          {phrase('Choose something else')}
        </button>
        <button type="button" onClick={close}>
          {phrase('Cancel')}
        </button>
      </div>
    </>
  );
}

/** Two lists of findings as one, each told once, the gravest first. */
function merged(one: Finding[], other: Finding[]): Finding[] {
  const all = new Map<string, Finding>();
  for (const finding of [...one, ...other]) all.set(finding.code + finding.pointer + finding.message, finding);
  const grades = ['fault', 'caution', 'note'];
  return [...all.values()].sort((a, b) => grades.indexOf(a.severity) - grades.indexOf(b.severity));
}

function Findings({ findings }: { findings: Finding[] }) {
  return (
    <ul class="finding-list" aria-label={phrase('Import messages')}>
      {findings.map((it) => (
        <li key={it.code + it.pointer + it.message} data-severity={it.severity}>
          <strong>
            {phrase(SEVERITY[it.severity])}
            {it.pointer && `, ${it.pointer}`}:
          </strong>{' '}
          {heard(it.message)} {heard(it.remedy)}
        </li>
      ))}
    </ul>
  );
}
