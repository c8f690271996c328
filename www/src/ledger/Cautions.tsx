// Hazards and assumptions, each where its number is: what stands in the way of the dig under the verdict,
// others beside the dig, the spoil or the water, and the rest under the clearances. Notes, which only say what a number rests on, are folded away.
import type { Finding, Group } from '../core/types.ts';

const WORDS = { fault: 'Fault', caution: 'Caution', note: 'Note' };

/** Where a finding stands: under the verdict, under the clearances, beside a group of quantities, or at their cost. */
export type Place = 'verdict' | 'clearances' | 'cost' | Group;

/** Checks by the place of what they speak of; every other one stands under the clearances. */
const PLACES: Partial<Record<Place, string[]>> = {
  verdict: [
    'shell-beyond',
    'deck-beyond',
    'deck-over-structure',
    'dig-beyond',
    'equipment-beyond',
    'dig-through-line',
    'dig-through-system',
    'dig-through-water',
    'dig-under-structure',
    'dig-near-footing',
    'hole-in-the-air',
    'bank-beyond-lot',
    'bank-reaches',
    'shell-floats-full',
  ],
  dig: [
    'benched-sides',
    'cave-in',
    'dig-not-closed',
    'fall-protection',
    'ground-above-rim',
    'ground-assumed',
    'ground-beyond-spots',
    'layered-soil',
    'locate-utilities',
    'protective-system',
    'rim-above-ground',
    'short-term',
    'soil-class',
    'spots-merged',
    'steep-side',
    'steep-sides',
    'steep-spots',
    'upright-foot',
    'way-out',
  ],
  grading: ['bank-not-closed', 'coping-above-floor', 'deck-falls-to-building', 'fill-short', 'retained-cut', 'retained-fill'],
  haul: ['spoil-back', 'payload-governs', 'pile-better-elsewhere', 'pile-fits-nowhere', 'pile-in-the-way', 'pile-over-line'],
  concrete: ['collar-shows', 'deck-in-collar', 'steps-without-rise'],
  pipe: [
    'fitting-below-floor',
    'lone-drain',
    'no-fittings',
    'no-pad',
    'no-return',
    'no-suction',
    'pipe-in-shell',
    'pipe-not-deepest',
    'pipe-wider-than-over-dig',
    'trench-apart',
    'trench-over-line',
    'trench-through',
  ],
  cost: ['priced-twice', 'rate-not-counted', 'rate-unused'],
  water: [
    'dry-floor',
    'empty-shell',
    'groundwater-unknown',
    'open-water',
    'shell-floats-empty',
    'shell-weight-unknown',
  ],
};

/** Where a finding belongs, told by the name of the check that spoke. */
export function placeOf({ check }: Finding): Place {
  const found = Object.entries(PLACES).find(([, checks]) => checks.includes(check));
  return (found?.[0] as Place | undefined) ?? 'clearances';
}

interface Props {
  findings: Finding[];
  place: Place;
  /** The groups that quantities are listed in; what belongs beside a group that is not there stands under the clearances. */
  groups?: Place[];
}

export function Cautions({ findings, place, groups }: Props) {
  const homeless = (at: Place): boolean => groups !== undefined && at !== 'verdict' && !groups.includes(at);
  const here = findings.filter((finding) => {
    const its = placeOf(finding);
    return its === place || homeless(its);
  });
  const notes = here.filter((finding) => finding.severity === 'note');
  const others = here.filter((finding) => finding.severity !== 'note');
  if (here.length === 0) return null;
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
