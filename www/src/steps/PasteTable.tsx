// A table typed or pasted as text: what is wrong with each line is told beside it while it is typed.
import type { ComponentChildren } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { Finding } from '../core/types.ts';
import { told } from '../fields/fields.tsx';
import { count, heard, phrase } from '../words/words.ts';

interface Props {
  label: string;
  text: string;
  changed: boolean;
  /** There is nothing to take yet. */
  barred: boolean;
  findings: Finding[];
  take: string;
  hint: string;
  /** Another way with this text, where there is one. */
  offer?: ComponentChildren;
  onText: (text: string | null) => void;
  /** Takes the table; the findings when the core would not have it. */
  onTake: () => Finding[];
}

export function PasteTable({ label, text, changed, barred, findings, take, hint, offer, onText, onTake }: Props) {
  const id = useId();
  const [refused, setRefused] = useState<string | undefined>();
  const bad = changed && findings.length > 0;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea
        id={id}
        rows={7}
        spellcheck={false}
        value={text}
        aria-invalid={bad || refused !== undefined}
        aria-describedby={`${id}-word ${id}-hint`}
        onInput={(event) => {
          setRefused(undefined);
          onText(event.currentTarget.value);
        }}
      />
      <div id={`${id}-word`} aria-live="polite">
        {changed &&
          findings.slice(0, 12).map((it) => (
            <p class="field-word" data-kind="fault" key={it.pointer + it.message}>
              L{it.pointer.slice(1)}: {heard(it.message)} {heard(it.remedy)}
            </p>
          ))}
        {changed && findings.length > 12 && <p class="field-word">{count(findings.length - 12, '{n} more line has faults.', '{n} more lines have faults.')}</p>}
        {refused && <p class="field-word" data-kind="fault">{refused}</p>}
        {offer}
      </div>
      <div class="buttons">
        <button
          type="button"
          class="main"
          disabled={!changed || barred || findings.length > 0}
          onClick={() => setRefused(told(onTake()))}
        >
          {take}
        </button>
        <button
          type="button"
          disabled={!changed}
          onClick={() => {
            setRefused(undefined);
            onText(null);
          }}
        >
          {phrase('Put back')}
        </button>
      </div>
      <p class="field-hint" id={`${id}-hint`}>
        {hint}
      </p>
    </div>
  );
}
