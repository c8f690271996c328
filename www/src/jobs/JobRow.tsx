// One job in the list: what it is, how far it has come, and what can be done to it without opening it.
import { useState } from 'preact/hooks';
import { Choice } from '../fields/Choice.tsx';
import { TextField } from '../fields/TextField.tsx';
import { phrase } from '../words/words.ts';
import { deleteJob, duplicate, setCard } from './change.ts';
import { openJob } from './desk.ts';
import { JobFigures } from './JobFigures.tsx';
import { shownName, STATUSES, STATUS_WORDS, when, type JobCard } from './model.ts';
import { openKept } from './open.ts';
import { SmallPlan } from './SmallPlan.tsx';

export function JobRow({ card }: { card: JobCard }) {
  const { id, name, place, status, archived, changed } = card;
  const called = shownName(name) || phrase('Job without a name');
  const isOpen = openJob.value === id;
  // Where there is little room the fields and what can be done come when asked for.
  const [more, setMore] = useState(false);
  return (
    <li class="job" data-job={id} data-open={isOpen} data-more={more} aria-label={called}>
      <button type="button" class="job-open" onClick={() => void openKept(id)}>
        <SmallPlan src={card.small} />
        <span class="job-head">
          <strong>{called}</strong>
          <span class="job-brief">
            {phrase(STATUS_WORDS[status])}
            {place && `. ${place}`}
          </span>
          <span class="job-when">
            {isOpen && `${phrase('Open now.')} `}
            {phrase('Changed {when}', { when: when(changed, Date.now(), true) })}
          </span>
        </span>
      </button>
      <JobFigures figures={card.figures} />
      <button type="button" class="job-more" aria-expanded={more} aria-label={phrase('More on {job}', { job: called })} onClick={() => setMore(!more)}>
        {more ? phrase('Less') : phrase('More')}
      </button>
      <div class="job-fields">
        <TextField
          label={phrase('Place of {job}', { job: called })}
          quiet
          value={place}
          placeholder={phrase('Street, town')}
          commit={(typed) => void setCard(id, { place: typed })}
        />
        <Choice
          label={phrase('Status of {job}', { job: called })}
          quiet
          value={status}
          options={STATUSES.map((it) => ({ value: it, text: phrase(STATUS_WORDS[it]) }))}
          choose={(picked) => void setCard(id, { status: picked })}
        />
      </div>
      <div class="job-does">
        <button type="button" aria-label={phrase('Duplicate {job}', { job: called })} onClick={() => void duplicate(id)}>
          {phrase('Duplicate')}
        </button>
        <button
          type="button"
          aria-label={archived ? phrase('Bring back {job}', { job: called }) : phrase('Archive {job}', { job: called })}
          onClick={() => void setCard(id, { archived: !archived })}
        >
          {archived ? phrase('Bring back') : phrase('Archive')}
        </button>
        <button type="button" aria-label={phrase('Delete {job}', { job: called })} onClick={() => void deleteJob(id)}>
          {phrase('Delete')}
        </button>
      </div>
    </li>
  );
}
