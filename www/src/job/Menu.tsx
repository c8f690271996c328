// What unfolds below a button of the head. It closes on Escape and when the focus or a tap goes elsewhere.
import type { ComponentChildren, RefObject } from 'preact';
import { useEffect } from 'preact/hooks';

interface Props {
  menu: RefObject<HTMLDetailsElement | null>;
  class?: string;
  onToggle?: (event: { currentTarget: HTMLDetailsElement }) => void;
  children: ComponentChildren;
}

export function Menu({ menu, class: kind = 'menu', onToggle, children }: Props) {
  const leave = (to: EventTarget | null) => {
    if (menu.current && to instanceof Node && !menu.current.contains(to)) menu.current.open = false;
  };
  useEffect(() => {
    const pressed = (event: PointerEvent) => leave(event.target);
    document.addEventListener('pointerdown', pressed);
    return () => document.removeEventListener('pointerdown', pressed);
  }, []);
  return (
    <details
      class={kind}
      ref={menu}
      onToggle={onToggle}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !menu.current?.open) return;
        menu.current.open = false;
        menu.current.querySelector('summary')?.focus();
      }}
      onFocusOut={(event) => leave(event.relatedTarget)}
    >
      {children}
    </details>
  );
}
