// Every job on this device: looked for, opened, copied, put away, deleted and had back; all of them out to a file.
import { useEffect, useRef, useState } from 'preact/hooks';
import { FileInput } from '../fields/FileInput.tsx';
import { openPicked } from '../job/files.ts';
import { Sheet } from '../job/Sheet.tsx';
import { sheet } from '../state/store.ts';
import { justDeleted, takeBack } from './change.ts';
import { saveAll } from './exchange.ts';
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
    <Sheet label="Jobs" class="jobs" close={close}>
      <header class="jobs-head">
        <h2>Jobs on this device</h2>
        <button type="button" onClick={close}>
          Close
        </button>
      </header>
      <div class="jobs-find">
        <label class="unseen" for="jobs-words">
          Find a job by name, place or status
        </label>
        <input
          ref={box}
          id="jobs-words"
          type="search"
          autocomplete="off"
          placeholder="Find by name, place or status"
          value={words}
          onInput={(event) => setWords(event.currentTarget.value)}
        />
        <button type="button" aria-pressed={archived} disabled={away === 0 && !archived} onClick={() => setArchived(!archived)}>
          Archived ({away})
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
          New job on an empty 100 by 140 ft lot
        </button>
        <button type="button" onClick={() => (sheet.value = 'welcome')}>
          Try an invented site
        </button>
        <button type="button" onClick={() => picker.current?.click()}>
          Open a file
        </button>
        <button type="button" disabled={all.length === 0} onClick={() => void saveAll()}>
          Save all jobs to a file
        </button>
      </div>
      <p class="foot-words">
        Jobs are kept in this browser on this device and nowhere else.
        {promised.value === false && ' This browser may clear them away when its space runs short: save them to a file now and then.'}
        {promised.value === true && ' This browser has promised not to clear them away by itself.'} Whoever clears the
        browser’s data clears the jobs too.
      </p>
    </Sheet>
  );
}

function none(all: number, words: string, archived: boolean): string {
  if (all === 0) return 'No job is kept yet. Start one on an empty lot, open a file, or try an invented site: what you change is kept by itself.';
  if (words.trim() !== '') return `No job has “${words.trim()}” in its name, place or status.`;
  return archived ? 'No job is archived.' : 'Every job is archived. Look there.';
}

/** What was deleted last, to be had back. */
function Deleted() {
  const it = justDeleted.value;
  return (
    <div role="status" class="jobs-deleted" data-shown={it !== null}>
      {it && (
        <>
          <span>{it.name || 'The job'} was deleted.</span>
          <button type="button" onClick={() => void takeBack()}>
            Undo delete
          </button>
        </>
      )}
    </div>
  );
}
