// The plan: one canvas with the whole lot. The core paints it; this gives it its size, its listeners and
// its words for those who do not see it.
import { useEffect, useRef } from 'preact/hooks';
import { highlight, planWords, sheet, snapped } from '../state/store.ts';
import { watchControls } from './controls.ts';
import { askForFrame } from './frame.ts';
import { DrawBar } from './DrawBar.tsx';
import { listen, tip } from './gesture.ts';
import { HeightBar } from './HeightBar.tsx';
import { SectionButton, SectionPanel } from '../section/SectionPanel.tsx';
import { phrase } from '../words/words.ts';
import { fitPlan, planKey, zoomIn, zoomOut } from './keys.ts';
import { planLocked, toggleLock } from './lock.ts';
import { paintOn } from './painter.ts';
import { pinPhotographs } from '../photos/door.ts';
import { ShapeBar } from './ShapeBar.tsx';
import { TapeBar } from './TapeBar.tsx';
import { startTape, taping } from './tapes.ts';
import { current } from './view.ts';

export function PlanCanvas() {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const it = canvas.current;
    if (!it) return;
    const stopPainting = paintOn(it);
    const stopListening = listen(it);
    const sizes = new ResizeObserver(() => {
      current.view = { ...current.view, width: it.clientWidth || 1, height: it.clientHeight || 1 };
      askForFrame();
    });
    sizes.observe(it);
    const sheet = it.parentElement;
    const stopWatching = sheet ? watchControls(sheet) : () => {};
    return () => {
      stopWatching();
      sizes.disconnect();
      stopListening();
      stopPainting();
    };
  }, []);
  useEffect(() => highlight.subscribe(() => askForFrame()), []);
  useEffect(pinPhotographs, []);
  return (
    <div class="plan" role="region" aria-label={phrase('Plan')}>
      <DrawBar />
      <HeightBar />
      <ShapeBar />
      <TapeBar />
      <div class="plan-sheet">
        <canvas
          ref={canvas}
          class="plan-canvas"
          tabIndex={0}
          role="application"
          aria-roledescription={phrase('site plan')}
          aria-label={planWords.value}
          aria-describedby="plan-keys"
          onKeyDown={planKey}
        />
        <p id="plan-keys" class="unseen">
          {phrase('Arrow keys move the shell, square brackets turn it, F flips it, A lines it up, T stretches a tape, L locks the plan, plus and minus zoom, 0 shows the whole lot.')}
        </p>
        {snapped.value && <p class="plan-snap">{snapped.value}</p>}
        <Tip />
        <div class="plan-corner">
          <SectionButton />
          <button type="button" class="plan-hand" onClick={() => (sheet.value = 'round')}>
            {phrase('In the round')}
          </button>
          <button type="button" class="plan-hand" aria-pressed={taping.value !== null} onClick={startTape}>
            {phrase('Tape')}
          </button>
          <button
            type="button"
            class="plan-hand"
            aria-label={phrase('Lock the plan')}
            title={planLocked.value ? phrase('Unlock the plan') : phrase('Lock the plan')}
            aria-pressed={planLocked.value}
            onClick={toggleLock}
          >
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d={planLocked.value ? 'M8 11V7a4 4 0 0 1 8 0v4' : 'M8 11V6a4 4 0 0 1 7.5-2'} />
              <path d="M5 11h14v9H5z" />
            </svg>
          </button>
        </div>
        <div class="plan-tools" role="group" aria-label={phrase('Zoom')}>
          <button type="button" onClick={zoomIn} aria-label={phrase('Zoom in')}>
            +
          </button>
          <button type="button" onClick={zoomOut} aria-label={phrase('Zoom out')}>
            −
          </button>
          <button type="button" onClick={fitPlan} aria-label={phrase('Show the whole lot')} class="plan-fit">
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d="M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5" />
            </svg>
          </button>
        </div>
      </div>
      <SectionPanel />
    </div>
  );
}

function Tip() {
  const shown = tip.value;
  const box = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (!box.current || !shown) return;
    box.current.style.left = `${shown.x}px`;
    box.current.style.top = `${shown.y}px`;
  }, [shown]);
  return shown ? (
    <p class="plan-tip" ref={box}>
      {shown.text}
    </p>
  ) : null;
}
