// Whether the edge of clear ground holds by the cut made along it: told in words, and what does not hold drawn over the plan.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { EdgeFigures } from '../paper/messages.ts';
import { newest } from '../paper/newest.ts';
import { ask } from '../paper/press.ts';
import { StoppedNote } from '../paper/StoppedNote.tsx';
import { followView, SVG, wayThrough } from '../plan/overlay.ts';
import { bareText } from '../state/document.ts';
import { gesturing, ledger } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import './fit.css';

/** After a change the edge is walked once the hand has rested so long, milliseconds. */
const REST = 300;

const edge = signal<{ revision: number; figures: EdgeFigures } | null>(null);
const stopped = signal(false);

const walk = newest(
  (_: number) => ask('edge', { text: bareText() }),
  (revision, figures) => (edge.value = { revision, figures }),
  stopped,
);

export function EdgeNote() {
  const revision = ledger.value?.revision ?? -1;
  const busy = gesturing.value;
  const begin = (): void => {
    stopped.value = false;
    walk(revision);
  };
  useEffect(() => {
    if (busy) return;
    const resting = setTimeout(begin, REST);
    return () => clearTimeout(resting);
  }, [revision, busy]);
  useEffect(() => {
    const stop = overPlan();
    return () => {
      stop();
      edge.value = null;
    };
  }, []);
  if (stopped.value) return <StoppedNote text={phrase('Check the edge again')} again={begin} />;
  const now = edge.value;
  const settled = now?.revision === revision;
  return (
    <p class="edge-note" role="status" data-holds={settled && now ? String(now.figures.holds) : ''}>
      {settled && now ? heard(now.figures.words) : phrase('The edge of clear ground is held against the cut.')}
    </p>
  );
}

/** Lays the stretches that fall short over the plan; gives what takes them away. */
function overPlan(): () => void {
  const canvas = document.querySelector('.plan-sheet .plan-canvas');
  if (!canvas) return () => {};
  const drawn = document.createElementNS(SVG, 'svg');
  drawn.setAttribute('class', 'edge-over');
  drawn.setAttribute('aria-hidden', 'true');
  const paths = ['edge-under', 'edge-short'].map((look) => {
    const path = document.createElementNS(SVG, 'path');
    path.setAttribute('class', look);
    return path;
  });
  drawn.append(...paths);
  canvas.after(drawn);
  const stop = followView(
    () => [edge.value, ledger.value?.revision],
    (view) => {
      drawn.setAttribute('viewBox', `0 0 ${view.width} ${view.height}`);
      // What was true before the last change is not shown over the plan of now.
      const short = edge.value && edge.value.revision === ledger.value?.revision ? edge.value.figures.short : [];
      drawn.dataset['stretches'] = String(short.length);
      for (const path of paths) path.setAttribute('d', short.map((points) => wayThrough(view, points)).join(''));
    },
  );
  return () => {
    stop();
    drawn.remove();
  };
}
