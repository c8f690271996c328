// The hidden input behind a button that opens a JSON file.
import type { RefObject } from 'preact';

export function FileInput(props: {
  picker: RefObject<HTMLInputElement | null>;
  id?: string;
  take: (input: HTMLInputElement) => Promise<void>;
}) {
  return (
    <input
      ref={props.picker}
      id={props.id}
      type="file"
      accept=".json,application/json"
      class="unseen"
      tabIndex={-1}
      aria-hidden="true"
      onChange={(event) => void props.take(event.currentTarget)}
    />
  );
}
