// The hidden input behind a button that opens a JSON file, or another that holds one.
import type { RefObject } from 'preact';

export function FileInput(props: {
  picker: RefObject<HTMLInputElement | null>;
  id?: string;
  /** What else may be picked, as browsers name it. */
  also?: string;
  take: (input: HTMLInputElement) => Promise<void>;
}) {
  return (
    <input
      ref={props.picker}
      id={props.id}
      type="file"
      accept={['.json,application/json', props.also].filter(Boolean).join()}
      class="unseen"
      tabIndex={-1}
      aria-hidden="true"
      onChange={(event) => void props.take(event.currentTarget)}
    />
  );
}
