// The photographs of the yard: all of them in a list, or one large with what is said of it. They are taken in from the camera
// or from files, stay in the job, and are sent nowhere.
import { useEffect, useRef } from 'preact/hooks';
import type { Photograph } from '../core/types.ts';
import { Sheet } from '../job/Sheet.tsx';
import { sheet, site } from '../state/store.ts';
import { discardWaiting, MOST, placeWaiting, reading, takeIn, waiting } from './add.ts';
import { addressOf } from './data.ts';
import { openedPhotograph } from './door.ts';
import { look } from './edits.ts';
import { OnePhoto } from './OnePhoto.tsx';
import { pinsShown } from './pins.ts';
import { alternative, factsOf } from './words.ts';
import './photos.css';
import { count, phrase } from '../words/words.ts';

function close(): void {
  openedPhotograph.value = null;
  sheet.value = null;
}

export function PhotosSheet() {
  const all = site.value?.photographs ?? [];
  const at = all.findIndex((it) => it.id === openedPhotograph.value);
  const one = all[at];
  return (
    <Sheet label={phrase('Photographs')} class="photos" close={close}>
      <header class="jobs-head">
        <h2>{one ? phrase('Photograph {number} of {all}', { number: at + 1, all: all.length }) : phrase('Photographs')}</h2>
        {one && (
          <button type="button" onClick={() => (openedPhotograph.value = null)}>
            {phrase('All photographs')}
          </button>
        )}
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </header>
      {one ? <OnePhoto key={one.id} photograph={one} at={at} all={all} /> : <AllPhotos all={all} />}
    </Sheet>
  );
}

function AllPhotos({ all }: { all: readonly Photograph[] }) {
  return (
    <>
      <p>
        {phrase(
          'Each is pinned to the plan where it was taken. They are made small, without the camera’s own notes, and stay in this job: in its file and on the record sheet, and nowhere else.',
        )}
      </p>
      <Sources full={all.length >= MOST} />
      <Waits />
      {all.length === 0 && <p class="nothing-yet">{phrase('There are no photographs yet. Take one before the work begins.')}</p>}
      <ul class="photo-list">
        {all.map((it, index) => (
          <li key={it.id}>
            <button type="button" class="photo-card" onClick={() => look(it.id)}>
              <img src={addressOf(it.id)} alt={alternative(it, index + 1, all.length)} loading="lazy" />
              <span class="photo-number">{index + 1}</span>
              <span class="photo-facts">{factsOf(it).join(' · ')}</span>
              {it.note && <span class="photo-note">{it.note}</span>}
            </button>
          </li>
        ))}
      </ul>
      {all.length > 0 && (
        <div class="buttons">
          <button type="button" aria-pressed={pinsShown.value} onClick={() => (pinsShown.value = !pinsShown.value)}>
            {phrase('Pins on the plan')}
          </button>
        </div>
      )}
      <p class="foot-words">{phrase('A photograph is no survey: nothing is measured from it.')}</p>
    </>
  );
}

/** The ways in. */
function Sources({ full }: { full: boolean }) {
  const files = useRef<HTMLInputElement>(null);
  const camera = useRef<HTMLInputElement>(null);
  const input = (ref: typeof files, label: string, capture: boolean) => (
    <input
      ref={ref}
      type="file"
      accept="image/*"
      {...(capture ? { capture: 'environment' as const } : { multiple: true })}
      class="unseen"
      tabIndex={-1}
      aria-hidden="true"
      data-photographs={label}
      onChange={(event) => {
        const picked = Array.from(event.currentTarget.files ?? []);
        event.currentTarget.value = '';
        if (picked.length > 0) void takeIn(picked);
      }}
    />
  );
  return (
    <>
      <div class="buttons">
        <button type="button" class="main" disabled={full} onClick={() => camera.current?.click()}>
          {phrase('Take a photograph')}
        </button>
        <button type="button" disabled={full} onClick={() => files.current?.click()}>
          {phrase('Add from files')}
        </button>
        {input(files, 'files', false)}
        {input(camera, 'camera', true)}
      </div>
      <p class="field-hint" aria-live="polite">
        {reading.value > 0 ? phrase('The photographs are being made small …') : full ? phrase('A job keeps at most {most} photographs.', { most: MOST }) : ''}
      </p>
    </>
  );
}

/** What was taken in and has no place yet. */
function Waits() {
  const waits = waiting.value.length;
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.scrollIntoView({ block: 'nearest' }), [waits]);
  if (waits === 0) return null;
  return (
    <div class="caution photo-waits" data-severity="caution" ref={box}>
      <p>{count(waits, '{n} photograph has no place yet.', '{n} photographs have no place yet.')}</p>
      <div class="buttons">
        <button type="button" class="main" onClick={() => void placeWaiting()}>
          {phrase('Place on the plan')}
        </button>
        <button type="button" onClick={discardWaiting}>
          {phrase('Discard')}
        </button>
      </div>
    </div>
  );
}
