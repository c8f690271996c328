// What somebody must know of how the job is kept, for as long as it is so: another tab has it, or the device does not
// take it. Each with what to do.
import { download, fileName, saveFile } from '../job/files.ts';
import { sheet } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { parted, takeOverJob, trouble, tryAgain, unkept, watching } from './desk.ts';
import { blocked } from './list.ts';
import { openKept } from './open.ts';
import { TROUBLE_WORDS } from './trouble.ts';
import { nameIn } from './upgrade.ts';
import { wholeText } from './whole.ts';

export function KeepBar() {
  return (
    <div class="keep-bars">
      {blocked.value && <Blocked />}
      {trouble.value && <Trouble kind={trouble.value} />}
      {watching.value && <Watching />}
      {parted.value && <Parted {...parted.value} />}
    </div>
  );
}

function Blocked() {
  return (
    <div class="keep-bar" data-kind="bad" role="alert">
      <p>{phrase('An older copy of the planner is open in another tab and holds the jobs. Close that tab; what you do here is kept then.')}</p>
      <div class="buttons">
        <button type="button" onClick={() => location.reload()}>
          {phrase('It is closed: load the page again')}
        </button>
      </div>
    </div>
  );
}

function Trouble({ kind }: { kind: keyof typeof TROUBLE_WORDS }) {
  return (
    <div class="keep-bar" data-kind="bad" role="alert">
      <p>{phrase(TROUBLE_WORDS[kind])}</p>
      <div class="buttons">
        <button type="button" class="main" onClick={saveFile}>
          {phrase('Save it as a file')}
        </button>
        {unkept.value.map((it) => (
          <button key={it.id} type="button" onClick={() => download(wholeText(it), `${fileName(nameIn(it.text))}.json`, 'application/json')}>
            {phrase('Save {job} as a file', { job: nameIn(it.text) || phrase('the other job') })}
          </button>
        ))}
        <button type="button" onClick={() => void tryAgain()}>
          {phrase('Try again')}
        </button>
        {kind === 'full' && (
          <button type="button" onClick={() => (sheet.value = 'jobs')}>
            {phrase('Show the jobs')}
          </button>
        )}
      </div>
    </div>
  );
}

function Watching() {
  return (
    <div class="keep-bar" data-kind="watching" role="status">
      <p>{phrase('This job is being worked on in another tab. Here you see it as it is saved there, and cannot change it.')}</p>
      <div class="buttons">
        <button type="button" class="main" onClick={takeOverJob}>
          {phrase('Work on it here')}
        </button>
        <button type="button" onClick={() => (sheet.value = 'jobs')}>
          {phrase('Open another job')}
        </button>
      </div>
    </div>
  );
}

function Parted({ from, name }: { from: string; name: string }) {
  return (
    <div class="keep-bar" data-kind="watching" role="alert">
      <p>{phrase('Another tab changed this job too. Nothing was overwritten: what you did here is a job of its own now, “{name}”.', { name })}</p>
      <div class="buttons">
        <button type="button" onClick={() => void openKept(from)}>
          {phrase('Show the other one')}
        </button>
        <button type="button" onClick={() => (parted.value = null)}>
          {phrase('Go on here')}
        </button>
      </div>
    </div>
  );
}
