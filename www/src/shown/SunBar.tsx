// The sun on the water through the day and the year: twelve days as bars, one day as a strip that a hand moves along.
import { useEffect, useState } from 'preact/hooks';
import type { ShownYard } from '../paper/messages.ts';
import { DayStrip } from '../sun/DayStrip.tsx';
import '../sun/sun.css';
import { askShade, askSun, askYear, DAY_OF_MONTH, shade, sun, time, year } from './asked.ts';

const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];

/** A bar as high as its box is so many hours, seconds; no day south of 60 degrees north has many more. */
const WHOLE = 18 * 3600;
/** Height of that box, pixels. */
const HIGH = 50;

export function SunBar({ yard }: { yard: ShownYard }) {
  const [open, setOpen] = useState(false);
  return (
    <div class="shown-sun">
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        Sun on the water
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
      <div class="shown-year" role="group" aria-label="Day of the year">
        {MONTHS.map((name, index) => {
          const lit = year.value[index]?.in_sun;
          const told = lit ? `, ${lit.shown.text} of sun on the water` : '';
          return (
            <button
              key={name}
              type="button"
              aria-pressed={index === month}
              aria-label={`${name} ${DAY_OF_MONTH}${told}`}
              title={`${name} ${DAY_OF_MONTH}${told}`}
              onClick={() => setMonth(index)}
            >
              <i style={{ height: `${(HIGH * Math.min(lit?.value ?? 0, WHOLE)) / WHOLE}px` }} />
              <span>{name.slice(0, 3)}</span>
            </button>
          );
        })}
      </div>
      {now && now.samples.length > 0 && (
        <div class="shown-day">
          <p>
            {MONTHS[month]} {DAY_OF_MONTH}: <b>{now.in_sun?.shown.text}</b> of sun on the water
          </p>
          <DayStrip day={now} time={time} words={shade.value?.words ?? ''} />
        </div>
      )}
    </>
  );
}
