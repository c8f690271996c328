// Courses from a deed, typed or pasted: the text again with what was understood of every stretch, what the
// courses close to, and their way into the lot.
import { useEffect, useId, useState } from 'preact/hooks';
import { useAsked } from '../core/useAsked.ts';
import { ask } from '../core/planner.ts';
import type { Course, DeedPiece, DeedReading, LotRecord } from '../core/types.ts';
import { SEVERITY } from '../fields/severity.ts';
import { UNITS } from '../fields/units.ts';
import { editOrTell, say } from '../state/actions.ts';
import { display } from '../state/store.ts';
import { Closing } from './Closing.tsx';
import { startAsking } from './StreetPart.tsx';
import { fitPlan, showPlaces } from '../plan/keys.ts';
import { showPath } from '../plan/pick.ts';
import { count, heard, phrase } from '../words/words.ts';

const EXAMPLE = 'N 89°15\'30" E 120.00\'\nthence along a curve to the left, radius 50.00 feet, arc 35.20 feet, chord bearing N 45-10 E';

/** What was read, with the text it was read from. */
interface Read extends DeedReading {
  text: string;
}

const NOTHING: Read = { text: '', pieces: [], courses: [], stated_area: null, figures: null, kinds: null, streets: [], in_use: false, findings: [] };

export function DeedPart({ lot }: { lot: LotRecord }) {
  const id = useId();
  const units = display.value;
  // The deed's own text is kept with the lot, and stands here again.
  const kept = lot.deed ?? '';
  const [open, setOpen] = useState(false);
  const [typed, setText] = useState<string | null>(null);
  const text = typed ?? kept;
  const empty = text.trim() === '';
  const reading = useAsked<Read>(
    empty || !open ? null : (p) => ({ text, ...p.read_deed(text, lot) }),
    [text, units, lot],
    NOTHING,
  );
  const barred = reading.findings.some((finding) => finding.severity === 'fault');

  // What was read lies dashed on the plan until it is used or the part is closed.
  const read = reading.courses;
  const shows = read.length > 2 && !reading.in_use;
  useEffect(() => {
    if (!shows) return;
    const outline = ask((p) => p.outline({ ...lot, courses: read }), []);
    showPath(outline, true);
    showPlaces(outline.map(([x, y]) => [x, y]));
    return () => showPath([], false);
  }, [shows, read]);

  const changed = kept !== '' && text === kept && reading.text === text && !reading.in_use;

  function use(): void {
    const { stated_area: _, balance: __, ...rest } = lot;
    const stated = reading.stated_area === null ? {} : { stated_area: reading.stated_area };
    const courses: Course[] = reading.courses.map((it, i) => ({ ...it, kind: reading.kinds?.[i] ?? 'unspecified' }));
    if (!editOrTell({ 'set-lot': { ...rest, ...stated, courses, deed: text } }, phrase('The courses were not taken.'))) return;
    fitPlan();
    const sides = count(courses.length, 'The lot now has {n} side from the deed.', 'The lot now has {n} sides from the deed.');
    if (reading.kinds) {
      say(`${sides} ${phrase('Their kinds were proposed from {street}: check them above.', { street: streetName(reading) })}`);
    } else if (kindsFromEdge(courses, text, rest, stated)) {
      say(`${sides} ${phrase('Their kinds were proposed from the edge of the street on the plan: check them above.')}`);
    } else {
      startAsking(true);
      say(`${sides} ${phrase('Which side lies on the street? Pick it on the plan, or choose it above.')}`);
    }
  }

  return (
    <details class="part deed" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{changed ? phrase('Courses from a deed (changed since)') : phrase('Courses from a deed')}</summary>
      <div class="part-body">
        <div class="field">
          <label for={id}>{phrase('Deed or list of courses')}</label>
          <textarea
            id={id}
            rows={7}
            spellcheck={false}
            value={text}
            placeholder={EXAMPLE}
            aria-describedby={`${id}-hint`}
            data-typing={typed !== null ? '' : undefined}
            onInput={(event) => setText(event.currentTarget.value)}
          />
          <p class="field-hint" id={`${id}-hint`}>
            {phrase('One course a line, or the description with its “thence”. Numbers without a unit are {units}. The lot as it was read lies dashed on the plan; nothing changes until you use the courses.', { units: phrase(UNITS[units]) })}
          </p>
        </div>
        {!empty && reading.text !== '' && <Understood text={reading.text} pieces={reading.pieces} />}
        <div aria-live="polite">
          {reading.findings.map((it) => (
            <p class="caution" data-severity={it.severity} key={it.pointer + it.message}>
              <strong>{head(it)}</strong> {heard(it.message)} {heard(it.remedy)}
            </p>
          ))}
        </div>
        {reading.figures && <Closing figures={reading.figures} label={phrase('Closure of the deed')} />}
        {changed && (
          <p class="caution">
            {phrase("The courses in use are no longer those of this text: they were changed since. Using the courses again brings the text's own back.")}
          </p>
        )}
        <div class="buttons">
          <button type="button" class="main" disabled={barred || reading.courses.length === 0} onClick={use}>
            {phrase('Use these courses')}
          </button>
        </div>
      </div>
    </details>
  );
}

function head({ severity, pointer }: DeedReading['findings'][number]): string {
  return pointer.startsWith('line') ? `${phrase(SEVERITY[severity])}, ${heard(pointer)}:` : `${phrase(SEVERITY[severity])}:`;
}

/** The text again, each stretch with its mark and what it was taken for. */
function Understood({ text, pieces }: { text: string; pieces: DeedPiece[] }) {
  const letters = Array.from(text);
  return (
    <div class="deed-read" role="group" tabIndex={0} aria-label={phrase('What was understood')}>
      {pieces.map((piece) => {
        const words = letters.slice(piece.from, piece.to).join('');
        const [kind, says] = told(piece);
        return (
          <span class="deed-piece" data-kind={kind} key={piece.from}>
            <span class="deed-words">{words}</span>
            {says && <small> [{says}]</small>}
          </span>
        );
      })}
    </div>
  );
}

function told({ understood, message, remedy }: DeedPiece): [string, string] {
  if (understood === 'connective') return ['connective', ''];
  if (understood === 'beginning') return ['known', heard(message)];
  if (understood === 'unread') return remedy ? ['fault', phrase('not used')] : ['over', phrase('skipped')];
  if ('course' in understood) return ['known', phrase('side {number}: {words}', { number: understood.course + 1, words: heard(message) })];
  return ['known', heard(message)];
}

/** Kinds from the edge of the only street on the plan, if there is one. */
function kindsFromEdge(courses: Course[], deed: string, rest: LotRecord, stated: Partial<LotRecord>): boolean {
  const kinds = ask((p) => p.kinds_from_street(undefined, false), []);
  if (!kinds.includes('front')) return false;
  const told = courses.map((course, index) => ({ ...course, kind: kinds[index] ?? 'unspecified' }));
  return editOrTell({ 'set-lot': { ...rest, ...stated, courses: told, deed } }, phrase('The kinds were not taken.'));
}

function streetName({ streets }: DeedReading): string {
  return streets.find((street) => street.name !== '')?.name ?? phrase('the street named in it');
}
