// A door for benchmarks and tests, open only where the address asks for it (?bench). With the file of a demo site
// (?bench=level-suburban.json) a first visit finds that site open, as after a tap on the first sheet.
import type { BenchDoor } from './bench-door.ts';
import { ask } from './core/planner.ts';
import { stopWorker } from './core/study.ts';
import { loadDemoSites } from './job/demo.ts';
import { watchFrames } from './plan/frame.ts';
import { current } from './plan/view.ts';
import { openText, refresh } from './state/actions.ts';
import { written } from './state/quantities.ts';
import { sheet } from './state/store.ts';

const report: BenchDoor['report'] = async (how) => (await written(`report-${how}`)) ?? '';

export async function benchDoor(): Promise<void> {
  const wanted = new URLSearchParams(location.search).get('bench');
  if (wanted === null) return;
  const demo = wanted === '' || sheet.value !== 'welcome' ? undefined : (await loadDemoSites()).find((it) => it.file === wanted);
  if (demo) openText(demo.text, demo.name, 'copy');
  const door: BenchDoor = { ask, refresh, watchFrames, report, stopWorker, view: () => current.view };
  Object.assign(window, { bench: door });
}
