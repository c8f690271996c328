// An answer of the worker while a panel is open: asked anew after each change of the site.
import { useEffect, useState } from 'preact/hooks';
import type { Answer, Progress, Question } from '../core/types.ts';
import { askStudy } from './quantities.ts';
import { ledger } from './store.ts';

/** `finding` until the answer is there, with the share that is done; `stopped` where the worker died of it. */
export type Standing = { how: 'finding'; share: number } | { how: 'stopped' } | { how: 'found'; found: Answer };

/** What the worker finds on a question, where there is one; given up when the panel closes. `again` asks once more. */
export function useStudy(question: Question | null): { standing: Standing; again: () => void } {
  const [standing, setStanding] = useState<Standing>({ how: 'finding', share: 0 });
  const [turn, setTurn] = useState(0);
  const revision = ledger.value?.revision;
  useEffect(() => {
    if (question === null) return;
    const wanted = new AbortController();
    setStanding({ how: 'finding', share: 0 });
    const told = ({ done, of }: Progress) => setStanding({ how: 'finding', share: done / of });
    askStudy(question, { told, signal: wanted.signal }).then(
      (found) => setStanding({ how: 'found', found }),
      (why) => why !== 'stale' && setStanding({ how: 'stopped' }),
    );
    return () => wanted.abort();
  }, [question, revision, turn]);
  return { standing, again: () => setTurn(turn + 1) };
}
