// An answer of the worker while a panel is open: asked anew after each change of the site.
import { useEffect, useState } from 'preact/hooks';
import type { Found, Question } from '../core/types.ts';
import { askStudy } from './quantities.ts';
import { ledger } from './store.ts';

/** `finding` until the answer is there, with the share that is done; `stopped` where the worker died of it. */
export type Standing = { how: 'finding'; share: number } | { how: 'stopped' } | { how: 'found'; found: Found };

/** What the worker finds on a question; none where there is none. `again` asks once more. */
export function useStudy(question: Question | null): { standing: Standing; again: () => void } {
  const [standing, setStanding] = useState<Standing>({ how: 'finding', share: 0 });
  const [turn, setTurn] = useState(0);
  const revision = ledger.value?.revision;
  useEffect(() => {
    if (question === null) return;
    let wanted = true;
    const take = (now: Standing) => wanted && setStanding(now);
    take({ how: 'finding', share: 0 });
    askStudy(question, (share) => take({ how: 'finding', share })).then(
      (found) => take({ how: 'found', found }),
      (why) => why !== 'stale' && take({ how: 'stopped' }),
    );
    return () => {
      wanted = false;
    };
  }, [question, revision, turn]);
  return { standing, again: () => setTurn(turn + 1) };
}
