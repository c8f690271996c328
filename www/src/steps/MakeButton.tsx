// The button that makes what a form describes. It can always be pressed: where something is still missing it says what.
import { useState } from 'preact/hooks';
import { phrase } from '../words/words.ts';

interface Props {
  text: string;
  /** What has still to be entered, each in a word or two. */
  missing: string[];
  make: () => void;
}

/** Of what is needed, each by its words, what nobody has entered yet. */
export const stillMissing = (needs: readonly (readonly [words: string, value: unknown])[]): string[] =>
  needs.filter(([, value]) => value === undefined || value === '').map(([words]) => words);

export function MakeButton({ text, missing, make }: Props) {
  const [pressed, press] = useState(false);
  const waits = missing.length > 0;
  return (
    <>
      <button
        type="button"
        class="main"
        onClick={() => {
          press(waits);
          if (!waits) make();
        }}
      >
        {text}
      </button>
      <p class="field-word" data-kind="fault" role="alert">
        {pressed && waits ? phrase('Still to enter: {missing}.', { missing: missing.join(', ') }) : ''}
      </p>
    </>
  );
}
