// The hour of the day: where the sun stands then, and shadows where they are wanted.
import { useEffect, useState } from 'preact/hooks';
import type { SpaceSun } from '../paper/messages.ts';
import { ask } from '../paper/press.ts';
import { heard, phrase } from '../words/words.ts';
import type { Toward } from './light.ts';

/** The share of the daylight that has gone at the hour shown first. */
const FIRST = 0.62;

interface Light {
  sun: Toward | null;
  shadows: boolean;
}

interface Props {
  site: string;
  light: Light;
  set: (light: Light) => void;
}

export function SunBar({ site, light, set }: Props) {
  const [date, setDate] = useState('');
  const [path, setPath] = useState<SpaceSun | null>();
  const [refused, setRefused] = useState('');
  const [at, setAt] = useState<number>();
  useEffect(() => {
    let wanted = true;
    ask('space-sun', { site, date, offset: '' }).then(
      (it) => {
        if (!wanted) return;
        setRefused('refused' in it ? it.refused : '');
        if (!('path' in it)) return;
        setPath(it.path);
        // The middle of the afternoon, until somebody slides.
        setAt((now) => now ?? Math.round((it.path?.looks.length ?? 0) * FIRST));
      },
      () => wanted && setRefused(phrase('That part of the planner stopped. Close this view and open it again.')),
    );
    return () => {
      wanted = false;
    };
  }, [date]);
  const looks = path?.looks ?? [];
  const now = at === undefined ? undefined : looks[Math.min(at, looks.length - 1)];
  useEffect(() => {
    if (now) set({ ...light, sun: now[2] });
  }, [path, at]);
  return (
    <div class="space-sun">
      {looks.length > 0 && path && (
        <>
          <label>
            {phrase('Day')}
            <input type="date" min="1900-01-01" max="2100-12-31" value={date || path.date} onChange={(event) => setDate(event.currentTarget.value)} />
          </label>
          <label class="space-hour">
            {phrase('Hour')}
            <input
              type="range"
              min={0}
              max={looks.length - 1}
              value={at ?? 0}
              aria-valuetext={now?.[1] ?? ''}
              onInput={(event) => setAt(Number(event.currentTarget.value))}
            />
          </label>
          <output>{now && phrase('{time}, clock {offset} from UTC', { time: now[1], offset: path.utc_offset })}</output>
        </>
      )}
      {path === null && <p>{phrase('The site has no place on the earth yet (Shell, Sun on the water): the light is a plain one, no hour’s.')}</p>}
      {path && looks.length === 0 && <p>{phrase('The sun does not rise on this day.')}</p>}
      {refused !== '' && <p role="alert">{heard(refused)}</p>}
      <label class="space-tick">
        <input type="checkbox" checked={light.shadows} onChange={(event) => set({ ...light, shadows: event.currentTarget.checked })} />
        {phrase('Shadows')}
      </label>
    </div>
  );
}
