// The job as a map or a list of points for others: what of it, in which form.
import { useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import type { Finding } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { OriginField } from './OriginField.tsx';
import { download, fileName } from '../job/files.ts';
import { Sheet } from '../job/Sheet.tsx';
import type { FileWish } from '../paper/messages.ts';
import { say } from '../state/actions.ts';
import { display, sheet, site } from '../state/store.ts';
import { Tick } from '../fields/Tick.tsx';
import '../style/bring.css';
import { english, heard, phrase, phrased, type English } from '../words/words.ts';

type Form = 'geojson' | 'points' | 'landxml';
const FORMS: readonly { value: Form; text: English }[] = [
  { value: 'geojson', text: english('Map (GeoJSON, in degrees)') },
  { value: 'points', text: english('List of points (CSV)') },
  { value: 'landxml', text: english('Survey (LandXML 1.2)') },
];
const FILES: Record<Form, [ending: string, type: string]> = {
  geojson: ['.geojson', 'application/geo+json'],
  points: ['-points.csv', 'text/csv'],
  landxml: ['.xml', 'application/xml'],
};
const FRAMES = [
  { value: 'feet', text: english('Feet') },
  { value: 'survey-feet', text: english('US survey feet') },
  { value: 'metres', text: english('Meters') },
  { value: 'degrees', text: english('Degrees (WGS 84)') },
] as const;
const ORDERS = [
  { value: 'north-first', text: english('Northing, then easting') },
  { value: 'east-first', text: english('Easting, then northing') },
] as const;
const PARTS = [
  ['lot', english('The lot')],
  ['features', english('What stands on it')],
  ['ground', english('Ground: spots, breaklines, benchmark')],
  ['shell', english('Rim and collar, with their stakes')],
  ['dig', english('The dig: bottom, top, stakes, offset stakes')],
] as const;
type Part = (typeof PARTS)[number][0];

const close = (): void => {
  sheet.value = null;
};

export function WriteSheet() {
  const now = site.value;
  const [form, setForm] = useState<Form>(now?.origin ? 'geojson' : 'points');
  const [parts, setParts] = useState<Record<Part, boolean>>({ lot: true, features: true, ground: true, shell: true, dig: true });
  const [frame, setFrame] = useState<NonNullable<FileWish['frame']>>(now?.grid?.unit ?? display.value);
  const [order, setOrder] = useState<NonNullable<FileWish['order']>>('north-first');
  const [findings, setFindings] = useState<Finding[]>([]);
  const degrees = form === 'geojson' || (form === 'points' && frame === 'degrees');

  async function save(): Promise<void> {
    const wish: FileWish = { form, parts, frame: form === 'geojson' ? null : frame, order, seconds: Math.floor(Date.now() / 1000) };
    const site = ask((p) => p.save(), '');
    const answer = await import('../paper/press.ts')
      .then((press) => press.writeFor(site, wish))
      .catch(() => ({ text: null, findings: [stopped()] }));
    setFindings(answer.findings);
    if (answer.text === null) return;
    const [ending, type] = FILES[form];
    const name = `${fileName()}${ending}`;
    download(answer.text, name, type);
    close();
    say(phrase('Saved as {name}', { name }), 'good');
  }

  return (
    <Sheet label={phrase('Write a map, a list or a survey')} class="write-out" close={close}>
      <h2>{phrase('Write a map, a list or a survey')}</h2>
      <Choice label={phrase('As')} value={form} options={phrased(FORMS)} choose={setForm} />
      <fieldset class="write-parts">
        <legend>{phrase('What of it')}</legend>
        {PARTS.map(([part, label]) => (
          <Tick key={part} label={phrase(label)} on={parts[part]} set={(on) => setParts({ ...parts, [part]: on })} />
        ))}
      </fieldset>
      {form !== 'geojson' && (
        <>
          <Choice
            label={phrase('Coordinates in')}
            value={frame}
            options={phrased(form === 'landxml' ? FRAMES.filter((it) => it.value !== 'degrees') : FRAMES)}
            choose={setFrame}
          />
          {form === 'points' && <Choice label={phrase('Order')} value={order} options={phrased(ORDERS)} choose={setOrder} />}
          {now?.grid && frame !== 'degrees' && (
            <p class="field-hint">{phrase('The file has the coordinates of the survey that the site came from.')}</p>
          )}
        </>
      )}
      {degrees && <OriginField laid={() => setFindings([])} />}
      <p class="field-hint">
        {phrase('On a map and a list curves are short straight lines: within 1 mm of the curve, within 1 in on a list. Stakes have the names of the stake plan. A drawing of the plan is no survey: stakes are set from checked control.')}
      </p>
      <div aria-live="polite">
        {findings.map((it) => (
          <p class="caution" data-severity={it.severity} key={it.code + it.pointer}>
            {heard(it.message)} {heard(it.remedy)}
          </p>
        ))}
      </div>
      <div class="buttons">
        <button type="button" class="main" onClick={() => void save()}>
          {phrase('Save the file')}
        </button>
        <button type="button" onClick={close}>
          {phrase('Cancel')}
        </button>
      </div>
    </Sheet>
  );
}

const stopped = (): Finding => ({
  severity: 'fault',
  code: 'stopped',
  pointer: '',
  topic: 'clearances',
  scope: 'site',
  at: null,
  message: phrase('The part of the planner that writes it could not be loaded or stopped.'),
  remedy: phrase('Nothing is lost: try again.'),
});
