// The door to the way in and the crane: what measures and shows them is fetched when somebody first opens it.
import { signal } from '@preact/signals';
import type { FunctionComponent } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Site } from '../core/types.ts';
import { step } from '../state/store.ts';
import { phrase } from '../words/words.ts';

const part = signal<FunctionComponent<{ site: Site }> | null>(null);
const failed = signal(false);
const open = signal(false);

function fetchPart(): void {
  failed.value = false;
  import('./WayIn.tsx').then(
    (it) => (part.value = it.WayIn),
    () => (failed.value = true),
  );
}

/** Opens it wherever the page stands. */
export function openWay(): void {
  step.value = 'shell';
  open.value = true;
}

export function WayDoor({ site }: { site: Site }) {
  const Part = part.value;
  const box = useRef<HTMLDetailsElement>(null);
  // It stands last in its step: what is opened is brought into sight.
  useEffect(() => {
    if (open.value && Part) box.current?.scrollIntoView({ block: 'start' });
  }, [open.value, Part]);
  const unfold = (now: boolean): void => {
    open.value = now;
    if (now && !Part) fetchPart();
  };
  return (
    <details ref={box} class="part" open={open.value} onToggle={(event) => unfold(event.currentTarget.open)}>
      <summary>{phrase('Way in and crane')}</summary>
      {open.value && (
        <div class="part-body">
          {Part ? (
            <Part site={site} />
          ) : failed.value ? (
            <button type="button" onClick={fetchPart}>
              {phrase('This part could not be loaded: try again')}
            </button>
          ) : (
            <p aria-live="polite">{phrase('Being loaded.')}</p>
          )}
        </div>
      )}
    </details>
  );
}
