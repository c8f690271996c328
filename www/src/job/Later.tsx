// A part of the page that is fetched when it is first wanted.
import { signal, type Signal } from '@preact/signals';
import type { FunctionComponent } from 'preact';
import { useEffect } from 'preact/hooks';
import { phrase, woven } from '../words/words.ts';

/** A part by how it is fetched: nothing before that, `'failed'` where it could not be. */
export interface LaterPart<P = object> {
  fetch: () => Promise<FunctionComponent<P>>;
  state: Signal<{ part: FunctionComponent<P> } | 'failed' | null>;
}

export const later = <P = object,>(fetch: () => Promise<FunctionComponent<P>>): LaterPart<P> => ({
  fetch,
  state: signal<{ part: FunctionComponent<P> } | 'failed' | null>(null),
});

/** Fetches it. */
export function begin<P>({ fetch, state }: LaterPart<P>): void {
  state.value = null;
  fetch().then(
    (part) => (state.value = { part }),
    () => (state.value = 'failed'),
  );
}

/** How far a part is; it is fetched unless that was done. */
export function useLater<P>(of: LaterPart<P>) {
  useEffect(() => {
    if (of.state.value === null) begin(of);
  }, [of]);
  return of.state.value;
}

/** The part, once it is there; `given` is what it is shown with. */
export function Later<P extends object>({ of, given }: { of: LaterPart<P>; given: P }) {
  const found = useLater(of);
  if (found === null) return (
      <p aria-live="polite" data-loading="">
        {phrase('This part is being loaded.')}
      </p>
    );
  if (found === 'failed') {
    return (
      <p aria-live="polite">
        {woven('This part of the planner could not be loaded. Connect once, then {button}', {
          button: (
            <button type="button" onClick={() => begin(of)}>
              {phrase('try again')}
            </button>
          ),
        })}
      </p>
    );
  }
  const { part: Part } = found;
  return <Part {...given} />;
}
