// Something folded away: what is in it is made only when it is unfolded, or a long list would be slow.
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface Props {
  head: ComponentChildren;
  /** Unfolded from the beginning. */
  start?: boolean;
  children: () => ComponentChildren;
}

export function Fold({ head, start = false, children }: Props) {
  const [open, setOpen] = useState(start);
  return (
    <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{head}</summary>
      {open && children()}
    </details>
  );
}
