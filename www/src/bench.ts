// A door for the benchmark, open only where the address asks for it (?bench).
import { ask } from './door/planner.ts';

export interface BenchDoor {
  ask: typeof ask;
}

export function benchDoor(): void {
  if (!new URLSearchParams(location.search).has('bench')) return;
  (window as unknown as { bench: BenchDoor }).bench = { ask };
}
