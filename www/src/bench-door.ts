// What benchmarks and tests find on the window when the address asks for it.
import type { Planner } from './core/types.ts';
import type { View } from './plan/view.ts';

export interface BenchDoor {
  /** Runs one call on the planner; `otherwise` when it dies of it. */
  ask<T>(call: (planner: Planner) => T, otherwise: T): T;
  /** Has the page take over what the planner says now. */
  refresh(): void;
  /** Tells how long each frame took, milliseconds. */
  watchFrames(by: (milliseconds: number) => void): void;
  /** The report on the open site. */
  report(how: 'text' | 'json'): Promise<string>;
  /** Ends the worker as a crash would. */
  stopWorker(): void;
  /** Where the plan is looked at. */
  view(): View;
}
