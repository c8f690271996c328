// Something folded away: what is in it is made only when it is unfolded, or a long list would be slow and a table
// would be read before anybody looks at it.
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface Props {
  head: ComponentChildren;
  /** Unfolded from the beginning. */
  start?: boolean;
  class?: string;
  children: () => ComponentChildren;
}

export function Fold({ head, start = false, class: look, children }: Props) {
  const [open, setOpen] = useState(start);
  return (
    <details class={look} open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{head}</summary>
      {open && children()}
    </details>
  );
}
