// The pages one below the other, as they print; on the first the plan is moved by hand or by the arrow keys.
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { phrase } from '../words/words.ts';
import type { Printed } from './press.ts';
import { wishFor } from './wish.ts';

/** The share of the window that an arrow key moves the plan. */
const STEP = 0.05;

type PlanWindow = NonNullable<Printed['made']['window']>;

export function Pages({ now }: { now: Printed }) {
  const addresses = useMemo(
    () => now.pages.map((page) => URL.createObjectURL(new Blob([page], { type: 'image/svg+xml' }))),
    [now],
  );
  useEffect(() => () => addresses.forEach((it) => URL.revokeObjectURL(it)), [addresses]);
  return (
    <div class="pages">
      {addresses.map((address, at) => {
        const [width, height] = now.made.pages[at] ?? [1, 1];
        return (
          <figure key={at} class="page-of-sheet">
            <img src={address} alt={phrase('Page {number} of {all}', { number: at + 1, all: addresses.length })} width={Math.round(width * 4)} height={Math.round(height * 4)} />
            {at === 0 && now.made.window && <Frame window={now.made.window} paper={[width, height]} />}
          </figure>
        );
      })}
    </div>
  );
}

/** The plan's window on the page. */
function Frame({ window: plan, paper: [width, height] }: { window: PlanWindow; paper: [number, number] }) {
  const box = useRef<HTMLButtonElement>(null);
  const [x, y, wide, high] = plan.area;
  useEffect(() => {
    const style = box.current?.style;
    const share = (part: number, of: number) => `${(part / of) * 100}%`;
    style?.setProperty('left', share(x, width));
    style?.setProperty('top', share(y, height));
    style?.setProperty('width', share(wide, width));
    style?.setProperty('height', share(high, height));
  });
  /** Moves the plan so many millimeters of paper, right and down, from where it was. */
  const moveFrom = ([east, north]: PlanWindow['centre'], right: number, down: number) => {
    const meters = plan.ratio / 1000;
    wishFor({ centre: [east - right * meters, north + down * meters] });
  };
  const drag = (event: PointerEvent) => {
    const it = box.current;
    if (!it || event.button !== 0) return;
    it.setPointerCapture(event.pointerId);
    const from = plan.centre;
    const millimeters = wide / it.getBoundingClientRect().width;
    const stop = new AbortController();
    const move = (to: PointerEvent) =>
      moveFrom(from, (to.clientX - event.clientX) * millimeters, (to.clientY - event.clientY) * millimeters);
    it.addEventListener('pointermove', move, { signal: stop.signal });
    for (const end of ['pointerup', 'pointercancel'] as const) {
      it.addEventListener(end, () => stop.abort(), { signal: stop.signal });
    }
  };
  const key = (event: KeyboardEvent) => {
    const steps: Record<string, [number, number]> = {
      ArrowLeft: [-STEP, 0],
      ArrowRight: [STEP, 0],
      ArrowUp: [0, -STEP],
      ArrowDown: [0, STEP],
    };
    const step = steps[event.key];
    if (!step) return;
    event.preventDefault();
    moveFrom(plan.centre, step[0] * wide, step[1] * high);
  };
  return (
    <button
      ref={box}
      type="button"
      class="plan-frame"
      aria-label={phrase('Move the plan on the sheet: drag it, or use the arrow keys')}
      title={phrase('Drag to move the plan on the sheet')}
      onPointerDown={drag}
      onKeyDown={key}
    />
  );
}
