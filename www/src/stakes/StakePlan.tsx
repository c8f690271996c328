// The stake plan: the site with every stake of a line by its name, and the base line from A to B.
import { useEffect, useRef } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import { theme } from '../state/theme.ts';
import type { StakedLine, StakeoutFigures } from '../core/types.ts';
import { phrase } from '../words/words.ts';

interface Props {
  now: StakeoutFigures;
  /** The stakes of one line alone. */
  line?: StakedLine | undefined;
}

export function StakePlan({ now, line }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const it = canvas.current;
    const context = it?.getContext('2d', { alpha: false });
    if (!it || !context) return;
    // It is told of the size as soon as it watches.
    const watch = new ResizeObserver(() => {
      const ratio = window.devicePixelRatio || 1;
      const { clientWidth: width, clientHeight: height } = it;
      it.width = Math.round(width * ratio);
      it.height = Math.round(height * ratio);
      ask((p) => p.paint_stakes(context, new Float64Array([width, height, ratio]), line), false);
    });
    watch.observe(it);
    return () => watch.disconnect();
  }, [now, line, theme.value]);
  return <canvas ref={canvas} class="stake-plan" role="img" aria-label={phrase('Plan of the stakes, A and B the fixed points. The table below says the same.')} />;
}
