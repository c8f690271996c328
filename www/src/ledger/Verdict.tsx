// Does it fit? One sentence, with a mark that is told by its shape as well, spoken when it changes.
import { useEffect, useState } from 'preact/hooks';
import type { Ledger } from '../core/types.ts';
import { gesturing } from '../state/store.ts';
import { Mark } from './Mark.tsx';

/** A drag may change the verdict many times; it is spoken once it has settled, milliseconds. */
const SETTLED = 700;

/** The sentence with its figures kept whole at the end of a line. */
const unbroken = (text: string): string => text.replace(/(\d) (?=\d+\/\d|m\b|ft\b)/g, '$1\u00a0');

export function Verdict({ verdict, placed }: { verdict: Ledger['verdict']; placed: boolean }) {
  const kind = !placed ? 'open' : verdict.short + verdict.over > 0 ? 'short' : 'fits';
  return (
    <header class="verdict" data-kind={kind}>
      <Mark kind={kind} />
      <h2>{unbroken(verdict.text)}</h2>
      <p class="verdict-note">Measured from what was put in: a planning aid, not a survey, not a permit.</p>
      <Spoken text={verdict.text} />
    </header>
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
      {said}
    </p>
  );
}
