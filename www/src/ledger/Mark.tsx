// The marks in the margin: a tick, a cross, a ring. Shape tells, colour only helps.

export type MarkKind = 'fits' | 'short' | 'open';

const SHAPES: Record<MarkKind, string> = {
  fits: 'M5 13l5 5L19 7',
  short: 'M6 6l12 12M18 6L6 18',
  open: 'M12 5a7 7 0 1 0 .01 0z',
};

export function Mark({ kind }: { kind: MarkKind }) {
  return (
    <svg class="mark" data-kind={kind} viewBox="0 0 24 24" aria-hidden="true">
      <path d={SHAPES[kind]} />
    </svg>
  );
}
