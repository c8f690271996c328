// A sheet laid over the page: it takes the focus, Escape puts it away.
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

interface Props {
  label: string;
  class?: string;
  close: () => void;
  children: ComponentChildren;
}

export function Sheet({ label, class: kind, close, children }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  // At once: what is typed right behind the key that opened it goes into it.
  useLayoutEffect(() => {
    const it = box.current;
    it?.showModal();
    return () => it?.close();
  }, []);
  return (
    <dialog
      ref={box}
      class={`sheet ${kind ?? ''}`}
      aria-label={label}
      onCancel={(event) => {
        event.preventDefault();
        close();
      }}
    >
      {children}
    </dialog>
  );
}
