// The largest rectangle of water of a proportion that fits anywhere: what to ask a maker for.
import { useState } from 'preact/hooks';
import { ask } from '../paper/press.ts';
import { Choice } from '../fields/Choice.tsx';
import { bareText } from '../state/document.ts';

const PROPORTIONS = [
  { value: '0.5', text: 'twice as long as wide' },
  { value: '0.4', text: '5 to 2' },
  { value: '0.6667', text: '3 to 2' },
  { value: '1', text: 'square' },
] as const;

export function LargestPart() {
  const [proportion, choose] = useState<(typeof PROPORTIONS)[number]['value']>('0.5');
  const [said, say] = useState('');
  const look = (): void => {
    say('Looking.');
    ask('largest', { site: bareText(), proportion: Number(proportion) }).then(
      (found) => say(found ?? 'No such rectangle fits anywhere by the rules as entered.'),
      (why: unknown) => say(why instanceof Error ? why.message : String(why)),
    );
  };
  return (
    <div class="fit-largest">
      <Choice label="Largest rectangle of water" value={proportion} options={PROPORTIONS} choose={choose} />
      <button type="button" onClick={look}>
        Look
      </button>
      <p role="status">{said}</p>
    </div>
  );
}
