// A picture under the plan: brought in from a file, the clipboard or the camera, laid to scale by two points,
// turned, faded, locked. A help to the eye; no figure comes from it.
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import type { Picture, Point, Site } from '../core/types.ts';
import { told } from '../fields/fields.tsx';
import { askForFrame } from '../plan/frame.ts';
import { shrink, type Refusal } from '../picture/shrink.ts';
import { edit, editOrTell, say } from '../state/actions.ts';
import { trouble } from '../state/store.ts';
import { english, phrase } from '../words/words.ts';
import { PictureLay } from './PictureLay.tsx';
import { PictureScale } from './PictureScale.tsx';

const NO_SURVEY =
  english('A scan or an aerial photograph is no survey. Paper shrinks and lenses bend: distances read off it are approximate, and no clearance may rest on it.');

export function PicturePart({ site }: { site: Site }) {
  const picture = site.picture;
  const [reading, setReading] = useState(false);

  async function take(file: Blob, name: string): Promise<void> {
    setReading(true);
    const shrunk = await shrink(file).catch(notRead);
    setReading(false);
    if ('message' in shrunk) return refuse(name, shrunk);
    const [x, y, scale] = ask((p) => Array.from(p.picture_place(shrunk.width, shrunk.height)), []);
    if (x === undefined || y === undefined || scale === undefined) return;
    const command = { 'set-picture': { name, ...shrunk, at: [x, y] as Point, scale, heading: 0, opacity: 0.7 } };
    if (editOrTell(command, phrase('{name} was not laid under the plan.', { name }))) {
      say(phrase('The picture lies under the plan. Scale it by two points whose distance you know.'));
    }
  }

  usePaste((file) => void take(file, phrase('Pasted picture')));
  return (
    <details class="part picture" open={picture !== undefined}>
      <summary>{phrase('Picture under the plan')}</summary>
      <div class="part-body">
        <p class="caution" data-severity="caution">
          {phrase(NO_SURVEY)}
        </p>
        <Sources take={take} again={picture !== undefined} />
        <p class="field-hint" aria-live="polite">
          {reading
            ? phrase('Reading the picture …')
            : phrase('PNG, JPEG or WebP; it is made smaller, kept in the site file and sent nowhere.')}
        </p>
        {picture && <Laid picture={picture} />}
      </div>
    </details>
  );
}

const notRead = (): Refusal => ({
  message: phrase('The picture could not be read from the device.'),
  remedy: phrase('Check that it is still there, then add it again.'),
});

function refuse(name: string, { message, remedy }: Refusal): void {
  trouble.value = {
    title: phrase('{name} was not laid under the plan.', { name }),
    findings: [{ severity: 'fault', code: 'picture', pointer: name, topic: 'clearances', scope: 'site', at: null, message, remedy }],
  };
}

/** The ways in. */
function Sources({ take, again }: { take: (file: Blob, name: string) => Promise<void>; again: boolean }) {
  const file = useRef<HTMLInputElement>(null);
  const camera = useRef<HTMLInputElement>(null);
  const input = (ref: typeof file, label: string, capture: boolean) => (
    <input
      ref={ref}
      type="file"
      accept="image/*"
      {...(capture ? { capture: 'environment' as const } : {})}
      class="unseen"
      tabIndex={-1}
      aria-hidden="true"
      data-picture={label}
      onChange={(event) => {
        const picked = event.currentTarget.files?.[0];
        event.currentTarget.value = '';
        if (picked) void take(picked, picked.name);
      }}
    />
  );

  async function paste(): Promise<void> {
    try {
      for (const item of await navigator.clipboard.read()) {
        const form = item.types.find((type) => type.startsWith('image/'));
        if (form) return await take(await item.getType(form), phrase('Pasted picture'));
      }
      say(phrase('There is no picture on the clipboard.'));
    } catch {
      say(phrase('The browser does not let this button read the clipboard. Press Ctrl+V here instead.'));
    }
  }

  return (
    <div class="buttons">
      <button type="button" class={again ? '' : 'main'} onClick={() => file.current?.click()}>
        {again ? phrase('Choose another picture') : phrase('Choose a picture')}
      </button>
      <button type="button" onClick={() => void paste()}>
        {phrase('Paste')}
      </button>
      <button type="button" onClick={() => camera.current?.click()}>
        {phrase('Take a photograph')}
      </button>
      {input(file, 'file', false)}
      {input(camera, 'camera', true)}
    </div>
  );
}

/** Takes a picture pasted anywhere on the page while this part is there; text is left to the boxes. */
function usePaste(take: (file: File) => void): void {
  const newest = useRef(take);
  newest.current = take;
  useEffect(() => {
    const pasted = (event: ClipboardEvent) => {
      const items = Array.from(event.clipboardData?.items ?? []);
      const file = items.find((item) => item.type.startsWith('image/'))?.getAsFile();
      if (!file) return;
      event.preventDefault();
      newest.current(file);
    };
    document.addEventListener('paste', pasted);
    return () => document.removeEventListener('paste', pasted);
  }, []);
}

/** The picture that is there. */
function Laid({ picture }: { picture: Picture }) {
  const put = (change: Partial<Picture>) => edit({ 'set-picture': { ...picture, ...change } });
  const words = ask((p) => p.picture_words(), '');
  return (
    <>
      <p class="picture-words">
        {picture.name && <strong>{picture.name}: </strong>}
        {words}
      </p>
      <Fade picture={picture} put={put} />
      <div class="buttons">
        <Switch label={phrase('Locked')} on={picture.locked ?? false} set={(locked) => put({ locked })} />
        <Switch label={phrase('Hidden')} on={picture.hidden ?? false} set={(hidden) => put({ hidden })} />
      </div>
      {picture.locked ? (
        <p class="field-hint">{phrase('Unlock it to scale, turn or move it.')}</p>
      ) : (
        <>
          <PictureScale />
          <PictureLay picture={picture} put={put} />
        </>
      )}
      <button type="button" onClick={() => editOrTell({ 'set-picture': null }, phrase('The picture was not removed.'))}>
        {phrase('Remove the picture')}
      </button>
    </>
  );
}

function Fade({ picture, put }: { picture: Picture; put: (change: Partial<Picture>) => ReturnType<typeof edit> }) {
  const id = useId();
  const [held, setHeld] = useState<number | null>(null);
  const shows = held ?? picture.opacity;
  return (
    <div class="field">
      <label for={id}>{phrase('How much of it shows')}</label>
      <div class="fade">
        <input
          id={id}
          type="range"
          min={0.05}
          max={1}
          step={0.05}
          value={shows}
          aria-valuetext={`${Math.round(shows * 100)} percent`}
          onInput={(event) => {
            const value = event.currentTarget.valueAsNumber;
            setHeld(value);
            ask((p) => p.fade_picture(value), undefined);
            askForFrame();
          }}
          onChange={(event) => {
            ask((p) => p.fade_picture(undefined), undefined);
            const refused = told(put({ opacity: event.currentTarget.valueAsNumber }));
            if (refused) say(refused);
            setHeld(null);
          }}
        />
        <output for={id}>{Math.round(shows * 100)} %</output>
      </div>
    </div>
  );
}

function Switch({ label, on, set }: { label: string; on: boolean; set: (on: boolean) => void }) {
  return (
    <button type="button" aria-pressed={on} onClick={() => set(!on)}>
      {label}
    </button>
  );
}
