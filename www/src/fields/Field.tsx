// One typed value: what it is called, the box, and beside it what the core made of the text. Enter or
// leaving the box commits; Escape brings back what was there.
import { useId, useRef, useState } from 'preact/hooks';
import type { Reading } from '../core/types.ts';
import { heard } from '../words/words.ts';

export interface FieldProps {
  label: string;
  /** The value as text, when nobody is typing. */
  text: string;
  /** Understands typed text. */
  read: (text: string) => Reading;
  /** Takes the value over; a sentence when the core would not have it. */
  commit: (value: number) => string | undefined;
  hint?: string;
  /** Leaving the box empty is allowed and means this. */
  clear?: (() => string | undefined) | undefined;
  placeholder?: string;
  disabled?: boolean;
  name?: string;
}

type Word = { kind: 'fault' | 'doubt' | 'reads'; text: string } | null;

function doubtIn(reading: Reading): string {
  if (!reading.ok) return '';
  return reading.ambiguities.map((it) => `${heard(it.message)} ${heard(it.remedy)}`.trim()).join(' ');
}

function wordOn(reading: Reading): Word {
  if (!reading.ok) return { kind: 'fault', text: `${heard(reading.message)} ${heard(reading.remedy)}`.trim() };
  const doubt = doubtIn(reading);
  return doubt ? { kind: 'doubt', text: doubt } : { kind: 'reads', text: `= ${reading.text}` };
}

export function Field({ label, text, read, commit, hint, clear, placeholder, disabled, name }: FieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [word, setWord] = useState<Word>(null);
  const restoring = useRef(false);

  function type(next: string): void {
    setTyped(next);
    setWord(next.trim() === '' ? null : wordOn(read(next)));
  }

  function finish(): void {
    if (typed === null || restoring.current) return;
    if (typed.trim() === '' && clear) return settle(clear());
    if (typed.trim() === '' || typed === text) return restore();
    const reading = read(typed);
    if (!reading.ok) {
      setWord(wordOn(reading));
      return;
    }
    settle(commit(reading.value), doubtIn(reading));
  }

  function settle(refused: string | undefined, doubt = ''): void {
    if (refused !== undefined) {
      setWord({ kind: 'fault', text: refused });
      return;
    }
    setTyped(null);
    setWord(doubt ? { kind: 'doubt', text: doubt } : null);
  }

  function restore(): void {
    setTyped(null);
    setWord(null);
  }

  function key(event: KeyboardEvent & { currentTarget: HTMLInputElement }): void {
    if (event.key === 'Enter') finish();
    if (event.key === 'Escape' && typed !== null) {
      event.stopPropagation();
      event.preventDefault();
      restore();
    }
  }

  const fault = word?.kind === 'fault';
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        name={name ?? label}
        type="text"
        inputMode="text"
        autocomplete="off"
        spellcheck={false}
        value={typed ?? text}
        placeholder={placeholder ?? ''}
        disabled={disabled ?? false}
        aria-invalid={fault}
        aria-describedby={`${id}-word ${id}-hint`}
        data-typing={typed !== null ? '' : undefined}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => type(event.currentTarget.value)}
        onBlur={finish}
        onKeyDown={key}
      />
      <p class="field-word" id={`${id}-word`} data-kind={word?.kind ?? ''} aria-live="polite">
        {word?.text ?? ''}
      </p>
      {hint && (
        <p class="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}
