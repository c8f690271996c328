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
import { PictureLay } from './PictureLay.tsx';
import { PictureScale } from './PictureScale.tsx';

const NO_SURVEY =
  'A scan or an aerial photograph is no survey. Paper shrinks and lenses bend: distances read off it are approximate, and no clearance may rest on it.';

export function PicturePart({ site }: { site: Site }) {
  const picture = site.picture;
  const [reading, setReading] = useState(false);

  async function take(file: Blob, name: string): Promise<void> {
    setReading(true);
    const shrunk = await shrink(file).catch((): Refusal => NOT_READ);
    setReading(false);
    if ('message' in shrunk) return refuse(name, shrunk);
    const [x, y, scale] = ask((p) => Array.from(p.picture_place(shrunk.width, shrunk.height)), []);
    if (x === undefined || y === undefined || scale === undefined) return;
    const command = { 'set-picture': { name, ...shrunk, at: [x, y] as Point, scale, heading: 0, opacity: 0.7 } };
    if (editOrTell(command, `${name} was not laid under the plan.`)) {
      say('The picture lies under the plan. Scale it by two points whose distance you know.');
    }
  }

  usePaste((file) => void take(file, 'Pasted picture'));
  return (
    <details class="part picture" open={picture !== undefined}>
      <summary>Picture under the plan</summary>
      <div class="part-body">
        <p class="caution" data-severity="caution">
          {NO_SURVEY}
        </p>
        <Sources take={take} again={picture !== undefined} />
        <p class="field-hint" aria-live="polite">
          {reading
            ? 'Reading the picture …'
            : 'PNG, JPEG or WebP; it is made smaller, kept in the site file and sent nowhere.'}
        </p>
        {picture && <Laid picture={picture} />}
      </div>
    </details>
  );
}

const NOT_READ: Refusal = {
  message: 'The picture could not be read from the device.',
  remedy: 'Check that it is still there, then add it again.',
};

function refuse(name: string, { message, remedy }: Refusal): void {
  trouble.value = {
    title: `${name} was not laid under the plan.`,
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
        if (form) return await take(await item.getType(form), 'Pasted picture');
      }
      say('There is no picture on the clipboard.');
    } catch {
      say('The browser does not let this button read the clipboard. Press Ctrl+V here instead.');
    }
  }

  return (
    <div class="buttons">
      <button type="button" class={again ? '' : 'main'} onClick={() => file.current?.click()}>
        {again ? 'Choose another picture' : 'Choose a picture'}
      </button>
      <button type="button" onClick={() => void paste()}>
        Paste
      </button>
      <button type="button" onClick={() => camera.current?.click()}>
        Take a photograph
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
        <Switch label="Locked" on={picture.locked ?? false} set={(locked) => put({ locked })} />
        <Switch label="Hidden" on={picture.hidden ?? false} set={(hidden) => put({ hidden })} />
      </div>
      {picture.locked ? (
        <p class="field-hint">Unlock it to scale, turn or move it.</p>
      ) : (
        <>
          <PictureScale />
          <PictureLay picture={picture} put={put} />
        </>
      )}
      <button type="button" onClick={() => editOrTell({ 'set-picture': null }, 'The picture was not removed.')}>
        Remove the picture
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
      <label for={id}>How much of it shows</label>
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
