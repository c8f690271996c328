// The open job as it was: by time and by name, what was changed since, and putting it back.
import { useEffect, useState } from 'preact/hooks';
import type { ChangesSince } from '../core/types.ts';
import { ChangeList } from '../fields/ChangeList.tsx';
import { TextField } from '../fields/TextField.tsx';
import { Sheet } from '../job/Sheet.tsx';
import { job, sheet } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { openJob, watching } from './desk.ts';
import { JobFigures } from './JobFigures.tsx';
import { when, type Version } from './model.ts';
import { changesSince, loadVersions, nameNow, nameVersion, openAsJob, restore, versions } from './versions.ts';

export function VersionsSheet() {
  const [name, setName] = useState('');
  const [open, setOpen] = useState<number | null>(null);
  useEffect(() => {
    versions.value = null;
    void loadVersions();
  }, []);
  const all = versions.value;
  const close = () => (sheet.value = null);
  const keep = (event: Event) => {
    event.preventDefault();
    const typed = name.trim();
    if (typed === '') return;
    setName('');
    void nameNow(typed);
  };
  return (
    <Sheet label={phrase('Versions')} class="versions" close={close}>
      <header class="jobs-head">
        <h2>{phrase('{job}: versions', { job: job.value?.name || phrase('This job') })}</h2>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </header>
      <p>
        {phrase('While you work, a version is put aside every few minutes; older ones are thinned out. One that you name stays.')}
      </p>
      <form class="version-name" onSubmit={keep}>
        <label for="version-name">{phrase('Keep the job as it stands, under a name')}</label>
        <input
          id="version-name"
          type="text"
          autocomplete="off"
          placeholder={phrase('Shown to the owner')}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
        <button type="submit" disabled={name.trim() === '' || openJob.value === null || watching.value}>
          {phrase('Keep it')}
        </button>
      </form>
      {all === null && <p>{phrase('Reading …')}</p>}
      {all?.length === 0 && <p class="jobs-none">{phrase('No version yet: the first is put aside with the next change.')}</p>}
      {all && all.length > 0 && (
        <ul class="version-list">
          {all.map((it) => (
            <Row key={it.id} version={it} open={open === it.id} toggle={() => setOpen(open === it.id ? null : it.id)} />
          ))}
        </ul>
      )}
    </Sheet>
  );
}

function Row({ version, open, toggle }: { version: Version; open: boolean; toggle: () => void }) {
  const title = version.name || when(version.at, Date.now());
  return (
    <li class="version" data-named={version.name !== ''}>
      <button type="button" class="version-head" aria-expanded={open} onClick={toggle}>
        <strong>{title}</strong>
        {version.name !== '' && <span>{when(version.at, Date.now())}</span>}
      </button>
      {open && <Since version={version} />}
    </li>
  );
}

function Since({ version }: { version: Version }) {
  const [since, setSince] = useState<ChangesSince | null | undefined>(null);
  useEffect(() => void changesSince(version.id).then(setSince), [version.id]);
  const restored = async () => {
    if (await restore(version.id)) sheet.value = null;
  };
  return (
    <div class="version-since">
      <JobFigures figures={version.figures} />
      <h3>{phrase('Changed since then')}</h3>
      {since === null && <p>{phrase('Comparing …')}</p>}
      {(since === undefined || (since && since.findings.length > 0)) && <p>{phrase('This version cannot be read, and so not compared.')}</p>}
      {since && since.findings.length === 0 && since.changes.length === 0 && <p>{phrase('Nothing: the job stands as it did then.')}</p>}
      {since && since.changes.length > 0 && (
        <ChangeList changes={since.changes} />
      )}
      <TextField
        label={phrase('Name of this version')}
        value={version.name}
        placeholder={phrase('None: it may be thinned out')}
        commit={(typed) => void nameVersion(version.id, typed)}
      />
      <div class="buttons">
        <button type="button" class="main" disabled={watching.value} onClick={() => void restored()}>
          {phrase('Restore this version')}
        </button>
        <button type="button" onClick={() => void openAsJob(version.id)}>
          {phrase('Open it as a job of its own')}
        </button>
      </div>
    </div>
  );
}
