// The door to the sheets: what makes and shows them is fetched when somebody first wants one.
import { signal } from '@preact/signals';
import type { FunctionComponent } from 'preact';
import { useEffect } from 'preact/hooks';
import { Sheet } from '../job/Sheet.tsx';
import { sheet } from '../state/store.ts';

const part = signal<FunctionComponent | null>(null);
const failed = signal(false);

function fetchPart(): void {
  failed.value = false;
  import('./Sheets.tsx').then(
    (it) => (part.value = it.Sheets),
    () => (failed.value = true),
  );
}

export function PaperSheet() {
  useEffect(() => {
    if (!part.value) fetchPart();
  }, []);
  const Part = part.value;
  if (Part) return <Part />;
  return (
    <Sheet label="Sheets to print" class="paper" close={() => (sheet.value = null)}>
      <h2>Sheets to print</h2>
      <p aria-live="polite">
        {failed.value ? 'This part of the planner could not be loaded. Connect once, then try again.' : 'The sheets are being loaded.'}
      </p>
      <div class="buttons">
        {failed.value && (
          <button type="button" onClick={fetchPart}>
            Try again
          </button>
        )}
        <button type="button" onClick={() => (sheet.value = null)}>
          Close
        </button>
      </div>
    </Sheet>
  );
}
