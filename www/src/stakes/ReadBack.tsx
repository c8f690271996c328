// As dug, as set: what was read in the yard, and what is to be done.
import type { StakeoutFigures } from '../core/types.ts';
import { Fold } from '../fields/Fold.tsx';
import { heard, phrase } from '../words/words.ts';
import { stakeOrTell } from './figures.ts';
import { BottomAnswer, RimAnswer, TapedAnswer } from './Answers.tsx';
import { ReadingForm } from './ReadingForm.tsx';

export function ReadBack({ now }: { now: StakeoutFigures }) {
  return (
    <section class="stakes-part" aria-labelledby="stakes-read">
      <h3 id="stakes-read">{phrase('As dug, as set')}</h3>
      <BottomAnswer now={now} />
      <TapedAnswer now={now} />
      <RimAnswer now={now} />
      <Fold class="part" head={phrase('Enter a reading')} start={now.readings.length === 0}>
        {() => <ReadingForm now={now} />}
      </Fold>
      {now.readings.length > 0 && (
        <Fold class="part" head={phrase('Readings as typed ({number})', { number: now.readings.length })}>
          {() => (
            <ol class="part-body stakes-list readings">
              {now.readings.map(({ reading, words }, at) => (
                <li key={at}>
                  <span>
                    {'bottom' in reading.of && `${phrase('Bottom, {place}:', { place: heard(reading.of.bottom.place ?? '') })} `}
                    {'rim' in reading.of && `${phrase('Rim, {place}:', { place: heard(reading.of.rim.place ?? '') })} `}
                    {'taped' in reading.of && `${phrase('Two tapes, {stake}:', { stake: reading.of.taped.stake })} `}
                    {heard(words)} <small>{[reading.when, reading.by].filter((it) => it !== '').join(', ')}</small>
                  </span>
                  <button type="button" aria-label={phrase('Remove reading {number}', { number: at + 1 })} onClick={() => stakeOrTell({ 'remove-reading': { at } }, phrase('The reading was not removed.'))}>
                    {phrase('Remove')}
                  </button>
                </li>
              ))}
            </ol>
          )}
        </Fold>
      )}
    </section>
  );
}
