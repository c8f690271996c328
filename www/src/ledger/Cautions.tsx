// Conflicts, hazards and assumptions, gravest first, at one place of the ledger (see `places`). A conflict stands in full; a caution is
// a line until it is opened. Notes, which only say what a number rests on, are folded away.
import type { Finding, Topic } from '../core/types.ts';
import { count, english, heard, phrase } from '../words/words.ts';
import { EntryButton } from './Verdict.tsx';

const WORDS = { fault: english('Conflict'), caution: english('Caution'), note: english('Note') };

interface Props {
  findings: Finding[] | undefined;
  place: Topic;
}

export function Cautions({ findings = [], place }: Props) {
  const notes = findings.filter((finding) => finding.severity === 'note');
  const others = findings.filter((finding) => finding.severity !== 'note');
  if (others.length === 0 && notes.length === 0) return null;
  return (
    <div class="cautions" data-place={place}>
      <List findings={others} />
      {notes.length > 0 && (
        <details class="notes">
          <summary>
            {count(notes.length, '{n} note on what this rests on', '{n} notes on what this rests on')}
          </summary>
          <List findings={notes} />
        </details>
      )}
    </div>
  );
}

/** Each keeps its row, and whether it is opened, while its words move under a hand. */
function List({ findings }: { findings: Finding[] }) {
  const seen = new Map<string, number>();
  return (
    <>
      {findings.map((finding) => {
        const what = `${finding.code} ${finding.pointer ?? ''}`;
        const turn = seen.get(what) ?? 0;
        seen.set(what, turn + 1);
        return <Caution key={`${what} ${turn}`} finding={finding} />;
      })}
    </>
  );
}

function Caution({ finding }: { finding: Finding }) {
  const { severity, message, remedy, code, entry } = finding;
  const word = <strong>{phrase(WORDS[severity])}:</strong>;
  const mend = entry && <EntryButton entry={entry} />;
  if (severity !== 'caution') {
    return (
      <div class="caution" data-severity={severity} data-check={code}>
        {word} {heard(message)} {heard(remedy)}
        {mend}
      </div>
    );
  }
  return (
    <details class="caution" data-severity={severity} data-check={code}>
      <summary>
        {word} {heard(message)}
      </summary>
      {heard(remedy)}
      {mend}
    </details>
  );
}
