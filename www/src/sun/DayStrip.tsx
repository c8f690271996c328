// A day as a strip: time along it, the share of the water in sun as a filled band. It is a slider too: a mouse, a finger or
// the arrow keys choose the time whose shade lies on the plan.
import type { Signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { SunFigures } from '../paper/messages.ts';
import { phrase } from '../words/words.ts';

/** Times chosen by hand fall on whole steps, minutes. */
const STEP = 5;
const HOUR = 60;
const HIGH = 100;

/** What the strip shows, whole hours round the time with the sun up, minutes. */
function spanOf(day: SunFigures): [number, number] {
  const from = Math.min(...day.spells.map((it) => it.from));
  const to = Math.max(...day.spells.map((it) => it.to));
  return [Math.floor(from / HOUR) * HOUR, Math.ceil(to / HOUR) * HOUR];
}

const hourText = (minutes: number): string => {
  const hour = (minutes / HOUR) % 24;
  return hour === 12 ? phrase('noon') : hour === 0 ? phrase('{hour} am', { hour: 12 }) : hour < 12 ? phrase('{hour} am', { hour }) : phrase('{hour} pm', { hour: hour - 12 });
};

/** The outline of a share through the day, and of the line on its top. */
function band(day: SunFigures, share: (of: SunFigures['samples'][number]) => number): string {
  const [start, end] = spanOf(day);
  const x = (minutes: number): string => ((1000 * (minutes - start)) / (end - start)).toFixed(1);
  return day.spells
    .map(({ from, to }) => {
      const samples = day.samples.filter(({ minutes }) => minutes >= from && minutes <= to);
      const top = samples.map((it) => `L${x(it.minutes)} ${(HIGH * (1 - share(it))).toFixed(2)}`).join('');
      return `M${x(from)} ${HIGH}${top}L${x(to)} ${HIGH}Z`;
    })
    .join('');
}

/** `time` is the time looked at, minutes after midnight; `words` what there is to say of it. */
export function DayStrip({ day, time, words }: { day: SunFigures; time: Signal<number | null>; words: string }) {
  const [start, end] = spanOf(day);
  const spell = day.spells[0];
  // Before anybody has chosen, the middle of the day.
  useEffect(() => {
    if (time.value === null && spell) time.value = Math.round((spell.from + spell.to) / 2 / STEP) * STEP;
  }, [spell]);
  const at = Math.min(Math.max(time.value ?? start, start), end);
  const choose = (minutes: number): void => {
    time.value = Math.min(Math.max(Math.round(minutes / STEP) * STEP, start), end);
  };
  const point = (event: PointerEvent & { currentTarget: HTMLElement }): void => {
    const box = event.currentTarget.getBoundingClientRect();
    choose(start + ((event.clientX - box.left) / box.width) * (end - start));
  };
  const key = (event: KeyboardEvent): void => {
    const moves: Record<string, number> = {
      ArrowLeft: at - 2 * STEP,
      ArrowDown: at - 2 * STEP,
      ArrowRight: at + 2 * STEP,
      ArrowUp: at + 2 * STEP,
      PageDown: at - HOUR,
      PageUp: at + HOUR,
      Home: start,
      End: end,
    };
    const to = moves[event.key];
    if (to === undefined || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    choose(to);
  };
  const hours = Array.from({ length: Math.round((end - start) / HOUR) + 1 }, (_, i) => start + i * HOUR);
  const place = (minutes: number): string => `${(100 * (minutes - start)) / (end - start)}%`;
  return (
    <div class="sun-strip">
      <div
        class="sun-band"
        role="slider"
        tabIndex={0}
        aria-label={phrase('Time of day')}
        aria-valuemin={start}
        aria-valuemax={end}
        aria-valuenow={at}
        aria-valuetext={words}
        onKeyDown={key}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          point(event);
        }}
        onPointerMove={(event) => event.currentTarget.hasPointerCapture(event.pointerId) && point(event)}
      >
        <svg viewBox={`0 0 1000 ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
          <path class="sun-up" d={band(day, () => 1)} />
          <path class="sun-lit" d={band(day, (it) => it.share)} />
          {hours.slice(1, -1).map((it) => (
            <path key={it} class="sun-hour" d={`M${(1000 * (it - start)) / (end - start)} 0V${HIGH}`} />
          ))}
        </svg>
        <i class="sun-cursor" style={{ left: place(at) }} />
      </div>
      <div class="sun-hours" aria-hidden="true">
        {hours.map((it) => (
          <span key={it} data-third={(it / HOUR) % 3 === 0} style={{ left: place(it) }}>
            {hourText(it)}
          </span>
        ))}
      </div>
    </div>
  );
}

/** When one thing shades, and how much of the water, under the strip. */
export function ShadeLane({ day, feature }: { day: SunFigures; feature: number }) {
  const share = ({ by }: SunFigures['samples'][number]): number => by.find(([it]) => it === feature)?.[1] ?? 0;
  return (
    <svg class="sun-lane" viewBox={`0 0 1000 ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
      <path d={band(day, share)} />
    </svg>
  );
}
