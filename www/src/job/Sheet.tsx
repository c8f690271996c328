// A sheet laid over the page: it takes the focus, Escape puts it away. What there is to say meanwhile is said in front
// of it.
import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { NoticeBar } from './NoticeBar.tsx';

/** How many sheets are open. */
export const sheetsOpen = signal(0);

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
    sheetsOpen.value += 1;
    return () => {
      it?.close();
      sheetsOpen.value -= 1;
    };
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
      <NoticeBar />
    </dialog>
  );
}
