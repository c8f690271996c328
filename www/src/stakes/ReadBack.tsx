// As dug, as set: what was read in the yard, and what is to be done.
import type { StakeoutFigures } from '../core/types.ts';
import { Fold } from '../fields/Fold.tsx';
import { stakeOrTell } from './figures.ts';
import { BottomAnswer, RimAnswer, TapedAnswer } from './Answers.tsx';
import { ReadingForm } from './ReadingForm.tsx';

export function ReadBack({ now }: { now: StakeoutFigures }) {
  return (
    <section class="stakes-part" aria-labelledby="stakes-read">
      <h3 id="stakes-read">As dug, as set</h3>
      <BottomAnswer now={now} />
      <TapedAnswer now={now} />
      <RimAnswer now={now} />
      <Fold class="part" head="Enter a reading" start={now.readings.length === 0}>
        {() => <ReadingForm now={now} />}
      </Fold>
      {now.readings.length > 0 && (
        <Fold class="part" head={`Readings as typed (${now.readings.length})`}>
          {() => (
            <ol class="part-body stakes-list readings">
              {now.readings.map(({ reading, words }, at) => (
                <li key={at}>
                  <span>
                    {'bottom' in reading.of && `Bottom, ${reading.of.bottom.place}: `}
                    {'rim' in reading.of && `Rim, ${reading.of.rim.place}: `}
                    {'taped' in reading.of && `Two tapes, ${reading.of.taped.stake}: `}
                    {words} <small>{[reading.when, reading.by].filter((it) => it !== '').join(', ')}</small>
                  </span>
                  <button type="button" aria-label={`Remove reading ${at + 1}`} onClick={() => stakeOrTell({ 'remove-reading': { at } }, 'The reading was not removed.')}>
                    Remove
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
