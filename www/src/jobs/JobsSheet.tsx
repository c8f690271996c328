// Every job on this device: looked for, opened, copied, put away, deleted and had back; all of them out to a file.
import { useEffect, useRef, useState } from 'preact/hooks';
import { FileInput } from '../fields/FileInput.tsx';
import { openPicked } from '../job/files.ts';
import { Sheet } from '../job/Sheet.tsx';
import { sheet } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { justDeleted, takeBack } from './change.ts';
import { saveAll } from './together.ts';
import { JobRow } from './JobRow.tsx';
import { jobs, loadCards } from './list.ts';
import { shownCards } from './model.ts';
import { startBlank } from './open.ts';
import { promised } from './persistence.ts';

export function JobsSheet() {
  const [words, setWords] = useState('');
  const [archived, setArchived] = useState(false);
  const picker = useRef<HTMLInputElement>(null);
  const box = useRef<HTMLInputElement>(null);
  useEffect(() => {
    justDeleted.value = null;
    void loadCards();
    // Under a finger the focus would draw up the keyboard over the list.
    if (matchMedia('(pointer: fine)').matches) box.current?.focus();
  }, []);
  const all = jobs.value;
  const shown = shownCards(all, { words, archived });
  const away = all.filter((it) => it.archived).length;
  const close = () => (sheet.value = null);
  return (
    <Sheet label={phrase('Jobs')} class="jobs" close={close}>
      <header class="jobs-head">
        <h2>{phrase('Jobs on this device')}</h2>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </header>
      <div class="jobs-find">
        <label class="unseen" for="jobs-words">
          {phrase('Find a job by name, place or status')}
        </label>
        <input
          ref={box}
          id="jobs-words"
          type="search"
          autocomplete="off"
          placeholder={phrase('Find by name, place or status')}
          value={words}
          onInput={(event) => setWords(event.currentTarget.value)}
        />
        <button type="button" aria-pressed={archived} disabled={away === 0 && !archived} onClick={() => setArchived(!archived)}>
          {phrase('Archived ({number})', { number: away })}
        </button>
      </div>
      <Deleted />
      {shown.length > 0 ? (
        <ul class="job-list">
          {shown.map((card) => (
            <JobRow key={card.id} card={card} />
          ))}
        </ul>
      ) : (
        <p class="jobs-none">{none(all.length, words, archived)}</p>
      )}
      <FileInput picker={picker} take={openPicked} />
      <div class="buttons">
        <button type="button" class="main" onClick={startBlank}>
          {phrase('New job on an empty 100 by 140 ft lot')}
        </button>
        <button type="button" onClick={() => (sheet.value = 'welcome')}>
          {phrase('Try an invented site')}
        </button>
        <button type="button" onClick={() => picker.current?.click()}>
          {phrase('Open a file')}
        </button>
        <button type="button" disabled={all.length === 0} onClick={() => void saveAll()}>
          {phrase('Save all jobs to a file')}
        </button>
      </div>
      <p class="foot-words">
        {phrase('Jobs are kept in this browser on this device and nowhere else.')}
        {promised.value === false && ` ${phrase('This browser may clear them away when its space runs short: save them to a file now and then.')}`}
        {promised.value === true && ` ${phrase('This browser has promised not to clear them away by itself.')}`} {phrase('Whoever clears the browser’s data clears the jobs too.')}
      </p>
    </Sheet>
  );
}

function none(all: number, words: string, archived: boolean): string {
  if (all === 0) return phrase('No job is kept yet. Start one on an empty lot, open a file, or try an invented site: what you change is kept by itself.');
  if (words.trim() !== '') return phrase('No job has “{words}” in its name, place or status.', { words: words.trim() });
  return archived ? phrase('No job is archived.') : phrase('Every job is archived. Look there.');
}

/** What was deleted last, to be had back. */
function Deleted() {
  const it = justDeleted.value;
  return (
    <div role="status" class="jobs-deleted" data-shown={it !== null}>
      {it && (
        <>
          <span>{phrase('{name} was deleted.', { name: it.name || phrase('The job') })}</span>
          <button type="button" onClick={() => void takeBack()}>
            {phrase('Undo delete')}
          </button>
        </>
      )}
    </div>
  );
}
