// Whether the shell may stand there: the core's sentence, with a mark that is told by its shape as well, spoken when it
// changes; what else bears on it; and the taps that lead to where it is mended.
import { useEffect, useState } from 'preact/hooks';
import type { Entry, VerdictFigures } from '../core/types.ts';
import { gesturing } from '../state/store.ts';
import { Fold } from '../fields/Fold.tsx';
import { Later, later } from '../job/Later.tsx';
import { heard, phrase } from '../words/words.ts';
import { entryWords, openEntry } from './entry.ts';
import { Mark, MARKS } from './Mark.tsx';

/** A drag may change the verdict many times; it is spoken once it has settled, milliseconds. */
const SETTLED = 700;

const cures = later(async () => (await import('../fit/Cures.tsx')).Cures);

/** The sentence with its figures kept whole at the end of a line. */
const unbroken = (text: string): string => text.replace(/(\d) (?=\d+\/\d|m\b|ft\b)/g, '$1\u00a0');

export function Verdict({ verdict }: { verdict: VerdictFigures }) {
  const { standing, text, entry, notes } = verdict;
  const kind = MARKS[standing];
  // One button for each place.
  const isFirst = (index: number): boolean => {
    const wanted = notes[index]?.entry;
    return wanted !== entry && notes.findIndex((note) => note.entry === wanted) === index;
  };
  return (
    <>
      <header class="verdict" data-kind={kind} data-standing={standing}>
        <Mark kind={kind} />
        <h2>{unbroken(heard(text))}</h2>
        {entry && <EntryButton entry={entry} />}
        <p class="verdict-note">{phrase('Measured from what was entered: a planning aid, not a survey, not a permit.')}</p>
        <Spoken text={text} />
      </header>
      {(standing === 'short' || standing === 'conflict') && (
        <Fold class="verdict-cures" head={phrase('What would free it')}>
          {() => <Later of={cures} given={{}} />}
        </Fold>
      )}
      {notes.length > 0 && (
        <ul class="verdict-points" aria-label={phrase('What else bears on it')}>
          {notes.map((note, index) => (
            <li key={index}>
              {unbroken(heard(note.text))}
              {isFirst(index) && note.entry && <EntryButton entry={note.entry} />}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

export function EntryButton({ entry }: { entry: Entry }) {
  return (
    <button type="button" class="entry" onClick={() => openEntry(entry)}>
      {entryWords(entry)}
    </button>
  );
}

function Spoken({ text }: { text: string }) {
  const [said, say] = useState('');
  const busy = gesturing.value;
  useEffect(() => {
    if (busy) return;
    const timer = setTimeout(() => say(text), SETTLED);
    return () => clearTimeout(timer);
  }, [text, busy]);
  return (
    <p class="unseen" role="status" aria-live="polite">
      {heard(said)}
    </p>
  );
}
