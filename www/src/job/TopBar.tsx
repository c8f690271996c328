// The head of the page: the job's name, undo and redo, the units, and the files.
import { useRef } from 'preact/hooks';
import { chooseIncoming } from '../bring/incoming.ts';
import type { System } from '../core/types.ts';
import { FileInput } from '../fields/FileInput.tsx';
import { Choice } from '../fields/Choice.tsx';
import { TextField } from '../fields/TextField.tsx';
import { keeping, trouble, watching } from '../jobs/desk.ts';
import { Guide } from '../guide/Guide.tsx';
import { KeepBar } from '../jobs/KeepBar.tsx';
import { shownName } from '../jobs/model.ts';
import { editOrTell, redo, undo } from '../state/actions.ts';
import { display, job, sheet } from '../state/store.ts';
import { COLORS, colors } from '../state/theme.ts';
import { chosenLanguage, LANGUAGES } from '../words/language.ts';
import { heard, phrase, phrased } from '../words/words.ts';
import { openPicked, saveFile } from './files.ts';
import { Menu } from './Menu.tsx';
import { speak } from './speak.ts';
import { StepList } from './StepList.tsx';

export function TopBar() {
  const now = job.value;
  if (!now) return null;
  return (
    <div class="head">
      <Bar now={now} />
      <KeepBar />
      <Guide />
    </div>
  );
}

function Bar({ now }: { now: NonNullable<typeof job.value> }) {
  return (
    <header class="top">
      <h1 class="brand">
        <svg viewBox="0 0 24 24" aria-hidden="true">
          <path d="M5 4v16M19 4v16M2 8h20" />
          <path class="bob" d="M12 8v5" />
          <path class="bob-end" d="M12 20l-2.4-6.5h4.8z" />
        </svg>
        <span>batterboard</span>
      </h1>
      <TextField
        class="job-name"
        label={phrase('Name of the job')}
        quiet
        value={shownName(now.name)}
        placeholder={phrase('Name of the job')}
        commit={(name) => editOrTell({ rename: { name, note: now.note } }, phrase('The job was not renamed.'))}
      />
      <Kept />
      <div class="top-group" role="group" aria-label={phrase('Undo and redo')}>
        <Arrow label={now.undo ? phrase('Undo: {step}', { step: heard(now.undo) }) : phrase('Nothing to undo')} off={!now.undo} does={undo} />
        <Arrow label={now.redo ? phrase('Redo: {step}', { step: heard(now.redo) }) : phrase('Nothing to redo')} off={!now.redo} does={redo} back />
        <StepList />
      </div>
      <Units />
      <Files />
    </header>
  );
}

/** Whether the job is kept on this device as it stands. */
function Kept() {
  const how = watching.value ? 'watching' : keeping.value;
  const words = { kept: phrase('Kept'), writing: phrase('Keeping …'), nothing: trouble.value ? phrase('Not kept') : '', watching: phrase('Only to look at') }[how];
  return (
    <span class="kept" data-how={trouble.value ? 'trouble' : how} title={phrase('How the job stands on this device')}>
      {words}
    </span>
  );
}

function Arrow({ label, off, does, back }: { label: string; off: boolean; does: () => void; back?: boolean }) {
  return (
    <button type="button" class="round" aria-label={label} title={label} aria-disabled={off} onClick={does}>
      <svg viewBox="0 0 24 24" aria-hidden="true" class={back ? 'mirrored' : ''}>
        <path d="M9 5L4 10l5 5M4 10h9a6 6 0 0 1 0 12h-2" />
      </svg>
    </button>
  );
}

function Units() {
  const units = display.value;
  const choose = (wanted: System) => {
    if (units !== wanted) editOrTell({ 'set-display': wanted }, phrase('The units were not changed.'));
  };
  return (
    <div class="units" role="group" aria-label={phrase('Units')}>
      <button type="button" aria-label={phrase('Feet (ft)')} aria-pressed={units === 'feet'} onClick={() => choose('feet')}>
        ft
      </button>
      <button type="button" aria-label={phrase('Meters (m)')} aria-pressed={units === 'metres'} onClick={() => choose('metres')}>
        m
      </button>
    </div>
  );
}

function Files() {
  const picker = useRef<HTMLInputElement>(null);
  const menu = useRef<HTMLDetailsElement>(null);
  const then = (does: () => void) => () => {
    if (menu.current) menu.current.open = false;
    does();
  };
  return (
    <>
      <FileInput picker={picker} id="site-file" also=".pdf,application/pdf" take={openPicked} />
      <button type="button" class="top-wide" onClick={() => (sheet.value = 'shown')}>
        {phrase('Show it')}
      </button>
      <button type="button" class="top-wide" onClick={() => (sheet.value = 'jobs')}>
        {phrase('All jobs')}
      </button>
      <button type="button" class="top-wide" onClick={saveFile}>
        {phrase('Save')}
      </button>
      <Menu menu={menu}>
        <summary>{phrase('Job')}</summary>
        <ul>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'jobs'))}>
              {phrase('All jobs')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'versions'))}>
              {phrase('Versions of this job')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'book'))}>
              {phrase('The company’s book')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => picker.current?.click())}>
              {phrase('Open a file')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(saveFile)}>
              {phrase('Save the site file')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(chooseIncoming)}>
              {phrase('Bring in a map, list or survey')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'write-out'))}>
              {phrase('Write a map, list or survey')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'stakes'))}>
              {phrase('Stakes and levels')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'photographs'))}>
              {phrase('Photographs')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'paper'))}>
              {phrase('Sheets to print')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'shown'))}>
              {phrase('Homeowner’s view')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'send'))}>
              {phrase('To send to the homeowner')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'report'))}>
              {phrase('Report')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'welcome'))}>
              {phrase('Start or open another job')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'keys'))}>
              {phrase('Keys and gestures')}
            </button>
          </li>
          <li>
            <button type="button" onClick={then(() => (sheet.value = 'sources'))}>
              {phrase('Sources and licenses')}
            </button>
          </li>
          <li class="menu-colors">
            <Choice label={phrase('Colors')} value={colors.value} options={phrased(COLORS)} choose={(value) => (colors.value = value)} />
          </li>
          <li class="menu-colors">
            <Choice label="English / Español" value={chosenLanguage.value} options={LANGUAGES} choose={(value) => void speak(value)} />
          </li>
        </ul>
      </Menu>
    </>
  );
}
