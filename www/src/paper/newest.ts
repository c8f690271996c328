// Questions that follow one another faster than they are answered.
import type { Signal } from '@preact/signals';

/** Asks the newest question: one is under way, and another waits at most. What was asked before a newer one came is not told. */
export function newest<I, O>(
  answer: (of: I) => Promise<O>,
  done: (of: I, answer: O) => void,
  stopped: Signal<boolean>,
): (of: I | null) => void {
  let waiting: I | null = null;
  let busy = false;
  const follow = (): void => {
    const of = waiting;
    if (busy || of === null) return;
    waiting = null;
    busy = true;
    answer(of)
      .then(
        (it) => waiting === null && done(of, it),
        () => (stopped.value = true),
      )
      .finally(() => {
        busy = false;
        follow();
      });
  };
  return (of) => {
    waiting = of;
    follow();
  };
}
