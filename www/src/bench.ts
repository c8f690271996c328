// A door for benchmarks and tests, open only where the address asks for it (?bench).
import type { BenchDoor } from './bench-door.ts';
import { askDesk } from './door/estimate.ts';
import { ask } from './door/planner.ts';
import { report } from './door/report.ts';
import { watchFrames } from './plan/frame.ts';
import { current } from './plan/view.ts';
import { refresh } from './state/actions.ts';

export function benchDoor(): void {
  if (!new URLSearchParams(location.search).has('bench')) return;
  const door: BenchDoor = { ask, askDesk, refresh, watchFrames, report, view: () => current.view };
  Object.assign(window, { bench: door });
}
