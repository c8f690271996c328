// What the planner said of a job when it was kept: the verdict's mark, the least room, the bank cut.
import { Mark, MARKS, STANDING_WORDS } from '../ledger/Mark.tsx';
import { heard, phrase } from '../words/words.ts';
import type { Figures } from './model.ts';

export function JobFigures({ figures }: { figures: Figures | null }) {
  if (!figures) return <p class="job-figures">{phrase('Open it to see its figures.')}</p>;
  const { standing, verdict, room, short, cut } = figures;
  return (
    <dl class="job-figures">
      <div class="job-verdict" data-kind={MARKS[standing]} title={heard(verdict)}>
        <dt class="unseen">{phrase('Verdict')}</dt>
        <dd>
          <Mark kind={MARKS[standing]} /> {phrase(STANDING_WORDS[standing])}
        </dd>
      </div>
      {room !== null && (
        <div data-short={short}>
          <dt>{phrase('Least room')}</dt>
          <dd>{room}</dd>
        </div>
      )}
      {cut !== null && (
        <div>
          <dt>{phrase('Bank cut')}</dt>
          <dd>{cut}</dd>
        </div>
      )}
    </dl>
  );
}
