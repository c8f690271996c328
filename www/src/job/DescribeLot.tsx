// A lot told in one line: what was understood stands below while it is typed, and a job begins with it.
import { useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import { openText } from '../state/actions.ts';
import { english, heard, phrase, type English } from '../words/words.ts';

/** Lots as they are common, to begin with and change; invented. */
const USUAL: [English, string][] = [
  [english('Suburban lot'), 'lot 100 by 140 ft, house 50 by 34 ft set back 35 ft'],
  [english('Narrow lot'), 'lot 50 by 120 ft, house 34 by 52 ft set back 25 ft'],
  [english('Shallow lot'), 'lot 90 by 95 ft, house 48 by 30 ft set back 20 ft'],
  [english('Corner lot'), 'corner lot 85 by 110 ft, house 44 by 34 ft set back 25 ft'],
  [english('Wide acre'), 'lot 180 by 240 ft, house 64 by 38 ft set back 70 ft'],
];

export function DescribeLot() {
  const [line, setLine] = useState('');
  const [tried, setTried] = useState(false);
  const read = line.trim() === '' ? undefined : ask((p) => p.read_description(line), undefined);
  const begin = () => {
    setTried(true);
    if (read?.kind === 'made') openText(read.site, phrase('The lot described'));
  };
  return (
    <form
      class="describe"
      onSubmit={(event) => {
        event.preventDefault();
        begin();
      }}
    >
      <div class="describe-usual" role="group" aria-label={phrase('Lots as they are common')}>
        {USUAL.map(([name, text]) => (
          <button key={text} type="button" onClick={() => setLine(text)}>
            {phrase(name)}
          </button>
        ))}
      </div>
      <div class="field">
        <label for="describe-lot">{phrase('The lot and its house in one line')}</label>
        <input
          id="describe-lot"
          type="text"
          autocomplete="off"
          spellcheck={false}
          value={line}
          placeholder="lot 100 by 140, house set back 35"
          aria-invalid={tried && read?.kind === 'refused'}
          aria-describedby="describe-word"
          onInput={(event) => setLine(event.currentTarget.value)}
        />
        <p class="field-word" id="describe-word" aria-live="polite" data-kind={read?.kind === 'refused' ? 'doubt' : 'reads'}>
          {read?.kind === 'made' && heard(read.words)}
          {read?.kind === 'refused' && `${heard(read.message)} ${heard(read.remedy)}`}
          {!read && tried && phrase('Enter a lot first, or pick one above.')}
        </p>
      </div>
      <button type="submit" class="main">
        {phrase('Start with this lot')}
      </button>
    </form>
  );
}
