// The sun on the water: how many hours of a day, when, what takes it, and the shade at any time of that day, drawn over the
// plan while this is open.
import { useEffect } from 'preact/hooks';
import { OriginField } from '../bring/OriginField.tsx';
import { TextField } from '../fields/TextField.tsx';
import { FindingList } from '../ledger/FindingList.tsx';
import type { SunFigures } from '../paper/messages.ts';
import { StoppedNote } from '../paper/StoppedNote.tsx';
import { ledger, site } from '../state/store.ts';
import { heard, phrase, woven } from '../words/words.ts';
import { cast, forgetSun, measure, refused, shade, stopped, sun, time, wish } from './asked.ts';
import { DayField } from './DayField.tsx';
import { DayStrip, ShadeLane } from './DayStrip.tsx';
import { overPlan } from './overlay.ts';
import './sun.css';

/** The hand has to rest so long before the day is worked out, milliseconds. */
const REST = 150;

export function SunPart() {
  const revision = ledger.value?.revision ?? -1;
  const { date, offset } = wish.value;
  useEffect(() => {
    const resting = setTimeout(() => measure(revision), sun.value ? REST : 0);
    return () => clearTimeout(resting);
  }, [revision, date, offset]);
  const now = sun.value?.figures;
  const at = time.value;
  useEffect(() => {
    if (now) cast();
  }, [now, at]);
  useEffect(() => {
    const stop = overPlan();
    return () => {
      stop();
      forgetSun();
    };
  }, []);
  const asked = sun.value;
  const settled = asked?.revision === revision && asked.wish === wish.value;
  const busy = !settled && !stopped.value && refused.value === '';
  return (
    <div class="sun" aria-busy={busy}>
      {stopped.value && <StoppedNote text={phrase('Work it out again')} again={() => measure(revision)} />}
      {now?.in_sun && <Hours now={now} />}
      {!now && <p aria-live="polite">{stopped.value ? '' : phrase('The sun is being worked out.')}</p>}
      {now && !site.value?.origin && <OriginField laid={() => {}} />}
      {now && now.samples.length > 0 && <Day now={now} />}
      {now && now.date !== '' && (
        <div class="sun-fields">
          <DayField />
          <div>
            <TextField
              label={phrase('Clock ahead of UTC, hours')}
              value={offset || now.utc_offset}
              commit={(text) => (wish.value = { ...wish.value, offset: text })}
            />
            <p class="field-hint">{phrase('Proposed by the longitude. Where daylight saving is kept it is an hour more in summer.')}</p>
          </div>
        </div>
      )}
      {refused.value !== '' && <p role="alert">{heard(refused.value)}</p>}
      {now && <FindingList list={now.findings} label={phrase('About the sun')} />}
    </div>
  );
}

function Hours({ now }: { now: SunFigures }) {
  return (
    <p class="sun-head" role="status">
      {woven('{sun} of sun on the water, of {daylight} of daylight', { sun: <b>{now.in_sun?.shown.text}</b>, daylight: now.daylight?.shown.text })}
      {now.spells.map((it) => (
        <small key={it.from}>{phrase('Sun up {times}', { times: heard(it.words) })}</small>
      ))}
    </p>
  );
}

function Day({ now }: { now: SunFigures }) {
  return (
    <section class="sun-day" aria-label={phrase('Through the day')}>
      <DayStrip day={now} time={time} words={heard(shade.value?.words ?? '')} />
      <p class="sun-now" aria-live="polite">
        {heard(shade.value?.words ?? ' ')}
      </p>
      {now.shaders.length === 0 ? (
        <p>{phrase('Nothing entered with a height shades the water on this day.')}</p>
      ) : (
        <ol class="sun-lanes" aria-label={phrase('What shades the water')}>
          {now.shaders.map((it) => (
            <li key={it.feature}>
              <span>
                <b>{heard(it.name)}</b> {it.takes.shown.text}
              </span>
              <small>
                {phrase('{times}; without it {alone} more sun', { times: heard(it.words), alone: it.alone.shown.text })}
              </small>
              <ShadeLane day={now} feature={it.feature} />
            </li>
          ))}
        </ol>
      )}
      <p class="field-hint">
        {phrase('The filled band is the share of the water in sun. Hours count by area: half the water in shade for an hour takes half an hour. Shade on the plan is drawn at the level of the water.')}
      </p>
    </section>
  );
}
