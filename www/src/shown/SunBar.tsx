// The sun on the water through the day and the year: twelve days as bars, one day as a strip that a hand moves along.
import { useEffect, useState } from 'preact/hooks';
import type { ShownYard } from '../paper/messages.ts';
import { DayStrip } from '../sun/DayStrip.tsx';
import '../sun/sun.css';
import { heard, phrase, tag, woven } from '../words/words.ts';
import { askShade, askSun, askYear, DAY_OF_MONTH, shade, sun, time, year } from './asked.ts';

/** The day of each month that is shown, in any year; the hour is far from any midnight. */
const DAYS = Array.from({ length: 12 }, (_, month) => new Date(2001, month, Number(DAY_OF_MONTH), 12));

const named = (day: Date | undefined, how: 'long' | 'short'): string =>
  day?.toLocaleDateString(tag(), how === 'long' ? { month: 'long', day: 'numeric' } : { month: 'short' }) ?? '';

/** A bar as high as its box is so many hours, seconds; no day south of 60 degrees north has many more. */
const WHOLE = 18 * 3600;
/** Height of that box, pixels. */
const HIGH = 50;

export function SunBar({ yard }: { yard: ShownYard }) {
  const [open, setOpen] = useState(false);
  return (
    <div class="shown-sun">
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {phrase('Sun on the water')}
      </button>
      {open && <Sun yard={yard} />}
    </div>
  );
}

function Sun({ yard }: { yard: ShownYard }) {
  const key = JSON.stringify(yard);
  const thisYear = String(new Date().getFullYear());
  const [month, setMonth] = useState(5);
  const date = `${thisYear}-${String(month + 1).padStart(2, '0')}-${DAY_OF_MONTH}`;
  useEffect(() => {
    let gone = false;
    void askYear(yard, thisYear, () => gone);
    return () => void (gone = true);
  }, [key]);
  useEffect(() => askSun({ yard, date }), [key, date]);
  const at = time.value;
  useEffect(() => {
    if (at !== null) askShade({ yard, date, minutes: at });
  }, [key, date, at]);
  useEffect(() => () => void (shade.value = null), []);
  const now = sun.value?.figures;
  return (
    <>
      <div class="shown-year" role="group" aria-label={phrase('Day of the year')}>
        {DAYS.map((day, index) => {
          const lit = year.value[index]?.in_sun;
          const name = named(day, 'long');
          const told = lit ? `${name}, ${phrase('{sun} of sun on the water', { sun: lit.shown.text })}` : name;
          return (
            <button
              key={index}
              type="button"
              aria-pressed={index === month}
              aria-label={told}
              title={told}
              onClick={() => setMonth(index)}
            >
              <i style={{ height: `${(HIGH * Math.min(lit?.value ?? 0, WHOLE)) / WHOLE}px` }} />
              <span>{named(day, 'short')}</span>
            </button>
          );
        })}
      </div>
      {now && now.samples.length > 0 && (
        <div class="shown-day">
          <p>
            {named(DAYS[month], 'long')}: {woven('{sun} of sun on the water', { sun: <b>{now.in_sun?.shown.text}</b> })}
          </p>
          <DayStrip day={now} time={time} words={heard(shade.value?.words ?? '')} />
        </div>
      )}
    </>
  );
}
