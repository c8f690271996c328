// One job in the list: what it is, how far it has come, and what can be done to it without opening it.
import { useState } from 'preact/hooks';
import { Choice } from '../fields/Choice.tsx';
import { TextField } from '../fields/TextField.tsx';
import { deleteJob, duplicate, setCard } from './change.ts';
import { openJob } from './desk.ts';
import { JobFigures } from './JobFigures.tsx';
import { STATUSES, STATUS_WORDS, when, type JobCard } from './model.ts';
import { openKept } from './open.ts';
import { SmallPlan } from './SmallPlan.tsx';

const OPTIONS = STATUSES.map((value) => ({ value, text: STATUS_WORDS[value] }));

export function JobRow({ card }: { card: JobCard }) {
  const { id, name, place, status, archived, changed } = card;
  const called = name || 'Job without a name';
  const isOpen = openJob.value === id;
  // Where there is little room the fields and what can be done come when asked for.
  const [more, setMore] = useState(false);
  const changedWhen = when(changed, Date.now()).replace(/^(?:Today|Yesterday)/, (day) => day.toLowerCase());
  return (
    <li class="job" data-job={id} data-open={isOpen} data-more={more} aria-label={called}>
      <button type="button" class="job-open" onClick={() => void openKept(id)}>
        <SmallPlan src={card.small} />
        <span class="job-head">
          <strong>{called}</strong>
          <span class="job-brief">
            {STATUS_WORDS[status]}
            {place && `. ${place}`}
          </span>
          <span class="job-when">
            {isOpen ? 'Open now. ' : ''}Changed {changedWhen}
          </span>
        </span>
      </button>
      <JobFigures figures={card.figures} />
      <button type="button" class="job-more" aria-expanded={more} aria-label={`More on ${called}`} onClick={() => setMore(!more)}>
        {more ? 'Less' : 'More'}
      </button>
      <div class="job-fields">
        <TextField
          label={`Place of ${called}`}
          quiet
          value={place}
          placeholder="Street, town"
          commit={(typed) => void setCard(id, { place: typed })}
        />
        <Choice
          label={`Status of ${called}`}
          quiet
          value={status}
          options={OPTIONS}
          choose={(picked) => void setCard(id, { status: picked })}
        />
      </div>
      <div class="job-does">
        <button type="button" aria-label={`Duplicate ${called}`} onClick={() => void duplicate(id)}>
          Duplicate
        </button>
        <button
          type="button"
          aria-label={`${archived ? 'Bring back' : 'Archive'} ${called}`}
          onClick={() => void setCard(id, { archived: !archived })}
        >
          {archived ? 'Bring back' : 'Archive'}
        </button>
        <button type="button" aria-label={`Delete ${called}`} onClick={() => void deleteJob(id)}>
          Delete
        </button>
      </div>
    </li>
  );
}
