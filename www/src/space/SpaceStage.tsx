// The canvas of the job in the round with all that is chosen beside it: stage, cut, walk, figures, sun.
import { useEffect, useRef, useState } from 'preact/hooks';
import { heard, phrase, woven } from '../words/words.ts';
import { firstLook, nearer, stoodAt, wholeLook, type Look } from './camera.ts';
import { forHands, handsOn, stepped } from './hands.ts';
import { labelsOver, type Labels } from './labels.ts';
import type { Toward } from './light.ts';
import type { SpaceModel } from './model.ts';
import { firstStage, stageWords } from './stages.ts';
import { SunBar } from './SunBar.tsx';
import license from './three-license.txt?url';
import { openView, type SpaceView } from './view.ts';

interface Props {
  model: SpaceModel;
  site: string;
  /** The processor draws, as there is nothing else: fewer pixels, softer edges. */
  byProcessor: boolean;
  lost: () => void;
}

export function SpaceStage({ model, site, byProcessor, lost }: Props) {
  const { record } = model;
  const box = useRef<HTMLDivElement>(null);
  const view = useRef<SpaceView | undefined>(undefined);
  const labels = useRef<Labels | undefined>(undefined);
  const [stage, setStage] = useState(firstStage(record));
  const [cut, setCut] = useState(false);
  const [walking, setWalking] = useState(false);
  const [figures, setFigures] = useState(true);
  const [sunBar, setSunBar] = useState(false);
  const [light, setLight] = useState<{ sun: Toward | null; shadows: boolean }>({ sun: null, shadows: false });
  useEffect(() => {
    const at = box.current;
    if (!at) return;
    let it: SpaceView;
    try {
      it = openView(at, model, byProcessor, {
        painted: (triangles, moving) => {
          // Laying words over what the processor draws costs as much as drawing it.
          labels.current?.follow(byProcessor && moving);
          it.canvas.dataset['triangles'] = String(triangles);
          it.canvas.dataset['frames'] = String(Number(it.canvas.dataset['frames'] ?? 0) + 1);
        },
        lost,
      });
    } catch (why) {
      console.error('nothing draws in three dimensions', why);
      lost();
      return;
    }
    forHands(it.canvas, 'space-keys');
    view.current = it;
    labels.current = labelsOver(at, it, record.labels.map((label) => ({ ...label, text: heard(label.text) })));
    const letGo = handsOn(it.canvas, it, record.reach);
    it.canvas.focus();
    return () => {
      letGo();
      labels.current?.end();
      it.end();
      labels.current = undefined;
      view.current = undefined;
    };
  }, []);
  const words = stageWords(record, stage, phrase, heard);
  useEffect(() => view.current?.show(stage, cut), [stage, cut]);
  useEffect(() => {
    labels.current?.show(figures ? stage : -1);
    view.current?.setLook(view.current.look);
  }, [stage, figures]);
  useEffect(() => view.current?.light(light.sun, light.shadows), [light]);
  useEffect(() => view.current?.canvas.setAttribute('aria-label', words), [words]);
  const look = (next: (view: SpaceView) => Look): void => {
    const it = view.current;
    if (it) it.setLook(next(it), true);
  };
  const whole = (): void => {
    setWalking(false);
    look(() => wholeLook(record, cut));
  };
  const cutOrNot = (): void => {
    setCut(!cut);
    if (!cut && record.section && !walking) look(() => wholeLook(record, true));
  };
  const walkOrNot = (): void => {
    setWalking(!walking);
    look((it) => {
      if (it.look.kind === 'walk') return firstLook(record.reach);
      const { x, y, azimuth } = stoodAt(it.look, record.reach);
      return { kind: 'walk', feet: [x, y, it.ground(x, y, 20) ?? 0], azimuth, tilt: -0.12 };
    });
    view.current?.canvas.focus();
  };
  const step = (by: number): void => setStage(Math.min(record.stages.length - 1, Math.max(0, stage + by)));
  return (
    <>
      <div class="space-box" ref={box} data-stage={stage} data-cut={cut} data-walk={walking}>
        <div class="space-tools" role="group" aria-label={phrase('Look')}>
          {walking ? (
            <>
              <button type="button" aria-label={phrase('Turn left')} onClick={() => look((it) => stepped(it, 0, 0.25))}>
                ↶
              </button>
              <button type="button" aria-label={phrase('Step ahead')} onClick={() => look((it) => stepped(it, 0.8, 0))}>
                ↑
              </button>
              <button type="button" aria-label={phrase('Step back')} onClick={() => look((it) => stepped(it, -0.8, 0))}>
                ↓
              </button>
              <button type="button" aria-label={phrase('Turn right')} onClick={() => look((it) => stepped(it, 0, -0.25))}>
                ↷
              </button>
            </>
          ) : (
            <>
              <button type="button" aria-label={phrase('Nearer')} onClick={() => look((it) => nearer(it.look, 0.8))}>
                +
              </button>
              <button type="button" aria-label={phrase('Farther')} onClick={() => look((it) => nearer(it.look, 1.25))}>
                −
              </button>
            </>
          )}
          <button type="button" aria-label={phrase('Back to the first look')} onClick={whole}>
            ⌂
          </button>
        </div>
      </div>
      <p id="space-keys" class="unseen">
        {phrase('Arrow keys turn the view, with Shift they move it; plus and minus bring it nearer. While walking, arrow keys step and turn.')}
      </p>
      {record.placed && (
        <div class="space-stages" role="group" aria-label={phrase('Stage of the work')}>
          <button type="button" aria-label={phrase('Stage before')} disabled={stage === 0} onClick={() => step(-1)}>
            ‹
          </button>
          <ol>
            {record.stages.map(({ name }, i) => (
              <li key={name}>
                <button type="button" aria-pressed={i === stage} onClick={() => setStage(i)}>
                  {heard(name)}
                </button>
              </li>
            ))}
          </ol>
          <button type="button" aria-label={phrase('Next stage')} disabled={stage === record.stages.length - 1} onClick={() => step(1)}>
            ›
          </button>
        </div>
      )}
      <div class="space-choices" role="group" aria-label={phrase('How it is shown')}>
        {record.section && (
          <button type="button" aria-pressed={cut} onClick={cutOrNot}>
            {phrase('Cut A–A′')}
          </button>
        )}
        <button type="button" aria-pressed={walking} onClick={walkOrNot}>
          {phrase('Walk')}
        </button>
        <button type="button" aria-pressed={figures} onClick={() => setFigures(!figures)}>
          {phrase('Figures')}
        </button>
        <button type="button" aria-pressed={sunBar} aria-expanded={sunBar} onClick={() => setSunBar(!sunBar)}>
          {phrase('Sun')}
        </button>
      </div>
      {sunBar && <SunBar site={site} light={light} set={setLight} />}
      <p class="space-words" aria-live="polite">
        {words}
      </p>
      <details class="space-notes">
        <summary>{phrase('Assumed in this view ({number})', { number: record.notes.length })}</summary>
        <ul>
          {record.notes.map((note) => (
            <li key={note}>{heard(note)}</li>
          ))}
        </ul>
        <p>
          {phrase('Roofs are flat and crowns round; wires hang without sag.')}{' '}
          {woven('Drawn with three.js ({license}).', {
            license: (
              <a href={license} target="_blank" rel="noreferrer">
                {phrase('MIT license')}
              </a>
            ),
          })}
        </p>
      </details>
    </>
  );
}
