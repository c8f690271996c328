// The largest rectangle of water of a proportion that fits anywhere: what to ask a maker for.
import { useState } from 'preact/hooks';
import { ask } from '../paper/press.ts';
import { Choice } from '../fields/Choice.tsx';
import { bareText } from '../state/document.ts';
import { english, heard, phrase, phrased } from '../words/words.ts';

const PROPORTIONS = [
  { value: '0.5', text: english('twice as long as wide') },
  { value: '0.4', text: english('5 to 2') },
  { value: '0.6667', text: english('3 to 2') },
  { value: '1', text: english('square') },
] as const;

export function LargestPart() {
  const [proportion, choose] = useState<(typeof PROPORTIONS)[number]['value']>('0.5');
  const [said, say] = useState('');
  const look = (): void => {
    say(phrase('Looking.'));
    ask('largest', { site: bareText(), proportion: Number(proportion) }).then(
      (found) => say(found !== null && found !== undefined ? heard(found) : phrase('No such rectangle fits anywhere by the rules as entered.')),
      (why: unknown) => say(why instanceof Error ? heard(why.message) : String(why)),
    );
  };
  return (
    <div class="fit-largest">
      <Choice label={phrase('Largest rectangle of water')} value={proportion} options={phrased(PROPORTIONS)} choose={choose} />
      <button type="button" onClick={look}>
        {phrase('Look')}
      </button>
      <p role="status">{said}</p>
    </div>
  );
}
