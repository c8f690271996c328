// The edge between a column and the plan: dragged, or moved with the arrow keys, it sets the column's width.
import type { Signal } from '@preact/signals';
import { COLUMN } from '../state/arrangement.ts';

interface Props {
  /** What the column is, to those who do not see it. */
  label: string;
  width: Signal<number>;
  /** The side of the column that the edge is on. */
  side: 'left' | 'right';
}

/** Under an arrow key, css pixels. */
const STEP = 20;

const within = (width: number): number => Math.round(Math.min(Math.max(width, COLUMN.least), COLUMN.most));

export function Splitter({ label, width, side }: Props) {
  const sense = side === 'right' ? 1 : -1;
  const hold = (event: PointerEvent & { currentTarget: HTMLElement }) => {
    const edge = event.currentTarget;
    const column = edge.parentElement?.getBoundingClientRect();
    if (!column) return;
    event.preventDefault();
    edge.setPointerCapture(event.pointerId);
    const from = { x: event.clientX, width: column.width };
    const letGo = new AbortController();
    const { signal } = letGo;
    const move = ({ clientX }: PointerEvent) => (width.value = within(from.width + sense * (clientX - from.x)));
    edge.addEventListener('pointermove', move, { signal });
    edge.addEventListener('lostpointercapture', () => letGo.abort(), { signal });
  };
  const key = (event: KeyboardEvent) => {
    const by = { ArrowRight: STEP, ArrowLeft: -STEP }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    width.value = within(width.value + sense * by);
  };
  return (
    <div
      class={`splitter splitter-${side}`}
      role="separator"
      aria-orientation="vertical"
      aria-label={label}
      aria-valuenow={width.value}
      aria-valuemin={COLUMN.least}
      aria-valuemax={COLUMN.most}
      tabIndex={0}
      onPointerDown={hold}
      onKeyDown={key}
    />
  );
}
