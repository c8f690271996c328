// Three things to take away from the homeowner's view, each saved on this device by one tap, or handed to the device's own
// sheet for sharing where the browser has one.
import { useEffect, useRef, useState } from 'preact/hooks';
import { download } from '../job/download.ts';
import { sheet } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';
import { FORMS, type Kind, type Wanted } from './forms.ts';
import './send.css';

/** What the button says, what it is called in a sentence, and what it is good for. */
const NAMES: readonly [Kind, English, English, English][] = [
  ['picture', english('Picture'), english('picture'), english('for a message or a print')],
  ['sheet', english('PDF page'), english('PDF page'), english('one page to print')],
  ['page', english('3D page'), english('3D page'), english('the yard and the pool from all sides, in any browser')],
];

/** Whether the device's own sheet takes such a file. */
function shares(kind: Kind): boolean {
  if (typeof navigator.share !== 'function' || typeof navigator.canShare !== 'function') return false;
  const [ending, type] = FORMS[kind];
  return navigator.canShare({ files: [new File(['x'], `x.${ending}`, { type })] });
}

const nameOf = (it: unknown): string => (it instanceof Error || it instanceof DOMException ? it.name : '');

export function SendGroup({ wanted }: { wanted: Wanted }) {
  const [busy, setBusy] = useState<Kind | null>(null);
  const [told, setTold] = useState('');
  const made = useRef<{ of: string; file: File } | null>(null);
  const part = useRef<HTMLElement>(null);
  const [sharing] = useState(() => NAMES.filter(([kind]) => shares(kind)).map(([kind]) => kind));
  useEffect(() => {
    // Whoever asked to send begins here.
    if (sheet.value !== 'send') return;
    part.current?.scrollIntoView({ block: 'end' });
    part.current?.querySelector('button')?.focus({ preventScroll: true });
  }, []);
  // What is said stands at the foot, which a small screen may hide.
  useEffect(() => {
    if (told) part.current?.scrollIntoView({ block: 'nearest' });
  }, [told]);
  const file = async (kind: Kind): Promise<File> => {
    const of = JSON.stringify([kind, wanted]);
    if (made.current?.of === of) return made.current.file;
    setTold(phrase('It is being made.'));
    const { make } = await import('./make.ts');
    const it = await make(kind, wanted);
    made.current = { of, file: it };
    return it;
  };
  const does = (kind: Kind, name: string, what: (file: File) => Promise<string>) => async (): Promise<void> => {
    if (busy) return;
    setBusy(kind);
    try {
      setTold(await what(await file(kind)));
    } catch (why) {
      console.error('nothing to send was made', why);
      setTold(phrase('The {name} could not be made. Nothing is lost; try again.', { name }));
    } finally {
      setBusy(null);
    }
  };
  const save = (kind: Kind, name: string) =>
    does(kind, name, async (it) => {
      download(it, it.name, it.type);
      return phrase('{name} is saved on this device.', { name: it.name });
    });
  const share = (kind: Kind, name: string) =>
    does(kind, name, async (it) => {
      try {
        await navigator.share({ files: [it], title: it.name });
        return '';
      } catch (why) {
        if (nameOf(why) === 'AbortError') return '';
        // A browser opens its sheet only soon after a tap: by now the file is there, and the next tap is in time.
        if (nameOf(why) === 'NotAllowedError') return phrase('It is ready: tap Share once more.');
        return phrase('This device does not share it. Save it, and send the file.');
      }
    });
  return (
    <section ref={part} class="send" aria-labelledby="send-head">
      <h3 id="send-head">{phrase('To send')}</h3>
      <div class="send-ways" role="group" aria-labelledby="send-head">
        {NAMES.map(([kind, says, called, words]) => [kind, phrase(says), phrase(called), phrase(words)] as const).map(([kind, says, name, words]) => (
          <div key={kind}>
            <button type="button" aria-disabled={busy !== null} aria-busy={busy === kind} title={phrase('Save: {what}', { what: words })} onClick={() => void save(kind, name)()}>
              {says}
            </button>
            {sharing.includes(kind) && (
              <button type="button" aria-disabled={busy !== null} aria-label={phrase('Share the {name}', { name })} onClick={() => void share(kind, name)()}>
                {phrase('Share…')}
              </button>
            )}
          </div>
        ))}
      </div>
      <p class="send-told" aria-live="polite">
        {told || phrase('Saved as a file on this device; you send it.')}
      </p>
    </section>
  );
}
