// What the planner says of something typed, asked anew whenever that changes.
import { useMemo } from 'preact/hooks';
import { ask } from './planner.ts';
import type { Planner } from './types.ts';

/** What `call` gives for these inputs; `nothing` where there is nothing to ask (`call` is null) or the planner dies. */
export function useAsked<T>(call: ((planner: Planner) => T) | null, inputs: unknown[], nothing: T): T {
  return useMemo(() => (call ? ask(call, nothing) : nothing), [JSON.stringify(inputs), call === null]);
}
