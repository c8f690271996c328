// Hazards and assumptions, each where its number is: beside the dig, the spoil or the water, and the rest
// under the clearances. Notes, which only say what a number rests on, are folded away.
import type { Finding } from '../door/shapes.ts';

const WORDS = { fault: 'Fault', caution: 'Caution', note: 'Note' };

/** Where a finding stands: a group of quantities, or the clearances. */
export type Place = 'dig' | 'haul' | 'water' | 'clearances';

const PLACES: [Place, RegExp][] = [
  ['haul', /spoil|swell|load|haul/],
  ['water', /empty-shell|open-water/],
  ['dig', /dig|protect|depth|deep|ladder|slope|soil|ground|spots|locate|footing/],
];

/** Where a finding belongs, told by the name of the check that spoke. */
export function placeOf(finding: Finding): Place {
  return PLACES.find(([, words]) => words.test(finding.check))?.[0] ?? 'clearances';
}

export function Cautions({ findings, place }: { findings: Finding[]; place: Place }) {
  const here = findings.filter((finding) => placeOf(finding) === place);
  const notes = here.filter((finding) => finding.severity === 'note');
  const others = here.filter((finding) => finding.severity !== 'note');
  return (
    <div class="cautions" data-place={place}>
      {others.map((finding) => (
        <Caution key={finding.check + finding.place + finding.message} finding={finding} />
      ))}
      {notes.length > 0 && (
        <details class="notes">
          <summary>
            {notes.length} {notes.length === 1 ? 'note' : 'notes'} on what this rests on
          </summary>
          {notes.map((finding) => (
            <Caution key={finding.check + finding.place + finding.message} finding={finding} />
          ))}
        </details>
      )}
    </div>
  );
}

function Caution({ finding }: { finding: Finding }) {
  const { severity, message, remedy, check } = finding;
  return (
    <p class="caution" data-severity={severity} data-check={check}>
      <strong>{WORDS[severity]}:</strong> {message} {remedy}
    </p>
  );
}
