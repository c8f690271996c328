// What the planner said of a job when it was kept: the verdict's mark, the least room, the bank cut.
import { Mark, MARKS, STANDING_WORDS } from '../ledger/Mark.tsx';
import type { Figures } from './model.ts';

export function JobFigures({ figures }: { figures: Figures | null }) {
  if (!figures) return <p class="job-figures">Open it to see its figures.</p>;
  const { standing, verdict, room, short, cut } = figures;
  return (
    <dl class="job-figures">
      <div class="job-verdict" data-kind={MARKS[standing]} title={verdict}>
        <dt class="unseen">Verdict</dt>
        <dd>
          <Mark kind={MARKS[standing]} /> {STANDING_WORDS[standing]}
        </dd>
      </div>
      {room !== null && (
        <div data-short={short}>
          <dt>Least room</dt>
          <dd>{room}</dd>
        </div>
      )}
      {cut !== null && (
        <div>
          <dt>Bank cut</dt>
          <dd>{cut}</dd>
        </div>
      )}
    </dl>
  );
}
