// A name or a note: plain text, committed like every other field.
import { useId, useState } from 'preact/hooks';

interface Props {
  label: string;
  value: string;
  commit: (text: string) => void;
  quiet?: boolean;
  placeholder?: string;
  class?: string;
}

export function TextField({ label, value, commit, quiet, placeholder, class: kind }: Props) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  function finish(): void {
    if (typed !== null && typed.trim() !== value) commit(typed.trim());
    setTyped(null);
  }
  return (
    <div class={`field ${kind ?? ''}`}>
      <label for={id} class={quiet ? 'unseen' : ''}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={typed ?? value}
        placeholder={placeholder ?? ''}
        data-typing={typed !== null ? '' : undefined}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={finish}
        onKeyDown={(event) => {
          if (event.key === 'Enter') finish();
          if (event.key === 'Escape' && typed !== null) {
            event.stopPropagation();
            event.preventDefault();
            setTyped(null);
          }
        }}
      />
    </div>
  );
}
