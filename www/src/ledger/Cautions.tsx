// Conflicts, hazards and assumptions, gravest first, each where its number is: what bears on the placement under the verdict,
// others beside the dig, the spoil or the water, and the rest under the clearances. Notes, which only say what a number rests on, are folded away.
import type { Finding, Topic } from '../core/types.ts';
import { EntryButton } from './Verdict.tsx';

const WORDS = { fault: 'Conflict', caution: 'Caution', note: 'Note' };

interface Props {
  findings: Finding[];
  topic: Topic;
  /** The groups that quantities are listed in; what belongs beside a group that is not there stands under the clearances. */
  groups?: Topic[];
}

export function Cautions({ findings, topic, groups }: Props) {
  const homeless = (at: Topic): boolean => groups !== undefined && at !== 'verdict' && !groups.includes(at);
  const here = findings.filter((finding) => finding.topic === topic || homeless(finding.topic));
  const notes = here.filter((finding) => finding.severity === 'note');
  const others = here.filter((finding) => finding.severity !== 'note');
  if (here.length === 0) return null;
  return (
    <div class="cautions" data-place={topic}>
      {others.map((finding, index) => (
        <Caution key={index} finding={finding} />
      ))}
      {notes.length > 0 && (
        <details class="notes">
          <summary>
            {notes.length} {notes.length === 1 ? 'note' : 'notes'} on what this rests on
          </summary>
          {notes.map((finding, index) => (
            <Caution key={index} finding={finding} />
          ))}
        </details>
      )}
    </div>
  );
}

function Caution({ finding }: { finding: Finding }) {
  const { severity, message, remedy, code, entry } = finding;
  return (
    <p class="caution" data-severity={severity} data-check={code}>
      <strong>{WORDS[severity]}:</strong> {message} {remedy}
      {entry && <EntryButton entry={entry} />}
    </p>
  );
}
