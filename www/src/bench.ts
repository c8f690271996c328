// A door for benchmarks and tests, open only where the address asks for it (?bench).
import type { BenchDoor } from './bench-door.ts';
import { ask } from './core/planner.ts';
import { stopWorker } from './core/study.ts';
import { watchFrames } from './plan/frame.ts';
import { current } from './plan/view.ts';
import { refresh } from './state/actions.ts';
import { written } from './state/quantities.ts';

const report: BenchDoor['report'] = async (how) => (await written(`report-${how}`)).text ?? '';

export function benchDoor(): void {
  if (!new URLSearchParams(location.search).has('bench')) return;
  const door: BenchDoor = { ask, refresh, watchFrames, report, stopWorker, view: () => current.view };
  Object.assign(window, { bench: door });
}
