// One of a few: a list to pick from.
import { useId } from 'preact/hooks';
import { heard } from '../words/words.ts';

interface Props<T extends string> {
  label: string;
  value: T;
  options: readonly { value: T; text: string }[];
  choose: (value: T) => void;
  hint?: string;
  /** The label is for those who listen; the place on the form tells the others. */
  quiet?: boolean;
}

export function Choice<T extends string>({ label, value, options, choose, hint, quiet }: Props<T>) {
  const id = useId();
  return (
    <div class="field">
      <label for={id} class={quiet ? 'unseen' : ''}>
        {label}
      </label>
      <select
        id={id}
        value={value}
        onChange={(event) => {
          const picked = options.find((option) => option.value === event.currentTarget.value);
          if (picked) choose(picked.value);
        }}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.text}
          </option>
        ))}
      </select>
      {hint && <p class="field-hint">{hint}</p>}
    </div>
  );
}

/** A kebab-case word as people read it, in the language chosen. */
export function plain(word: string): string {
  const text = word.replaceAll('-', ' ');
  return heard(text.charAt(0).toUpperCase() + text.slice(1));
}
