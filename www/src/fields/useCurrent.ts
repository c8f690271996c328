// State of several boxes that is right the moment it was put. What a handler closes over is as old as the last
// painted frame: two boxes typed within one frame would each put the other's text back.
import { useReducer, useRef } from 'preact/hooks';

/** The state as it is now, and what changes some of it and has it shown. */
export function useCurrent<State extends object>(first: State): [() => State, (next: Partial<State>) => void] {
  const state = useRef(first);
  const [, shown] = useReducer((count: number) => count + 1, 0);
  return [
    () => state.current,
    (next) => {
      state.current = { ...state.current, ...next };
      shown(undefined);
    },
  ];
}
