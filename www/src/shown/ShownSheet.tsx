// The homeowner's view: the yard over the whole screen, in color and to scale, as it is, with the pool, and with each
// place that was kept. One tap away and one tap back; nothing to set but what is looked at.
import { useEffect, useRef, useState } from 'preact/hooks';
import { Sheet } from '../job/Sheet.tsx';
import type { ShownYard } from '../paper/messages.ts';
import { SendGroup } from '../send/SendGroup.tsx';
import { StoppedNote } from '../paper/StoppedNote.tsx';
import { sheet, site } from '../state/store.ts';
import { language } from '../words/language.ts';
import { heard, phrase } from '../words/words.ts';
import { forget, picture, refused, shade, show, stopped } from './asked.ts';
import { SunBar } from './SunBar.tsx';
import { YardPicture } from './YardPicture.tsx';
import './shown.css';

/** Millimeters of a picture to a pixel of the page. */
const MILLIMETERS = 25.4 / 96;

/** A finger that went so far across turned the page, pixels. */
const SWIPE = 60;

const close = (): void => void (sheet.value = null);

/** Every yard there is to be looked at, with its name. */
function yards(places: readonly string[]): [ShownYard, string][] {
  const kept = places.slice(1).map((name, index): [ShownYard, string] => [{ kept: index }, name]);
  return [['as-it-is', phrase('The yard today')], ['placed', places.length > 1 ? (places[0] ?? '') : phrase('With the pool')], ...kept];
}

const same = (a: ShownYard, b: ShownYard): boolean => JSON.stringify(a) === JSON.stringify(b);

/** What is told of an hour, without where the sun stands. */
const plain = (words: string): string => words.replace(/ The sun stands [^]*? in the [a-z]+\./, '');

export function ShownSheet() {
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<[number, number] | null>(null);
  const [yard, setYard] = useState<ShownYard>('placed');
  const [room, setRoom] = useState(false);
  useEffect(() => forget, []);
  useEffect(() => {
    const it = frame.current;
    if (!it) return;
    const watch = new ResizeObserver(() => setSize([it.clientWidth, it.clientHeight]));
    watch.observe(it);
    return () => watch.disconnect();
  }, []);
  const look = () => {
    if (size) show({ yard, room, width: size[0] * MILLIMETERS, height: size[1] * MILLIMETERS, language: language.value === 'es' ? 'spanish' : 'english' });
  };
  useEffect(look, [size, yard, room, language.value]);
  const now = picture.value;
  const view = now?.view;
  const all = yards(view?.places ?? ['']);
  const turn = (by: number): void => {
    const at = all.findIndex(([it]) => same(it, yard));
    const [next] = all[at + by] ?? [];
    if (next !== undefined) setYard(next);
  };
  const key = (event: KeyboardEvent): void => {
    const by = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (by === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    turn(by);
  };
  const from = useRef<number | null>(null);
  const busy = now === null || !same(now.wish.yard, yard);
  return (
    <Sheet label={phrase('Homeowner’s view')} class="shown" close={close}>
      <div class="shown-page" onKeyDown={key}>
        <header class="shown-head">
          <div>
            <h2>{view?.title ?? site.value?.name ?? ''}</h2>
            <p>{view?.firm[0] ?? ''}</p>
          </div>
          <button type="button" class="shown-close" onClick={close}>
            {phrase('Back to the plan')}
          </button>
        </header>
        <div
          ref={frame}
          class="shown-frame"
          aria-busy={busy}
          onPointerDown={(event) => (from.current = event.clientX)}
          onPointerUp={(event) => {
            const went = event.clientX - (from.current ?? event.clientX);
            from.current = null;
            if (Math.abs(went) > SWIPE) turn(went < 0 ? 1 : -1);
          }}
        >
          {now && <YardPicture now={now} />}
          {refused.value !== '' && <p role="alert">{heard(refused.value)}</p>}
          {stopped.value && <StoppedNote text={phrase('Show it again')} again={look} />}
          {!now && !stopped.value && refused.value === '' && <p aria-live="polite">{phrase('The yard is being drawn.')}</p>}
        </div>
        <section class="shown-told" aria-label={phrase('What is shown')}>
          <div class="shown-yards" role="group" aria-label={phrase('Which yard')}>
            {all.map(([it, name]) => (
              <button key={JSON.stringify(it)} type="button" aria-pressed={same(it, yard)} onClick={() => setYard(it)}>
                {name}
              </button>
            ))}
          </div>
          <div class="shown-words" aria-live="polite">
            {view && view.shell !== '' && (
              <>
                <p class="shown-fits" data-short={view.short}>
                  {view.fits}
                </p>
                {view.against.length > 0 && (
                  <ul class="shown-against" aria-label={phrase('What stands against it')}>
                    {view.against.map((it) => (
                      <li key={it}>{it}</li>
                    ))}
                  </ul>
                )}
                {view.differs !== '' && <p class="shown-differs">{phrase('Beside the pool as placed: {differs}.', { differs: view.differs })}</p>}
                <dl>
                  {view.facts.map(([name, value]) => (
                    <div key={name}>
                      <dt>{name}</dt>
                      <dd>{value}</dd>
                    </div>
                  ))}
                </dl>
              </>
            )}
          </div>
          <label class="shown-room">
            <input type="checkbox" checked={room} onChange={(event) => setRoom(event.currentTarget.checked)} />
            {phrase('Show where else it could lie at this angle')}
          </label>
          {site.value?.origin && view && view.shell !== '' && !busy && <SunBar yard={yard} />}
          {shade.value && (
            <p class="shown-shade" aria-live="polite">
              {heard(plain(shade.value.words))}
            </p>
          )}
          {view && <SendGroup wanted={{ yard, room }} />}
          <p class="shown-caution">{view?.caution ?? ''}</p>
        </section>
      </div>
    </Sheet>
  );
}
