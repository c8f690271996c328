// One frame of a drag in the browser, on the built page and ground of 500 spots: the core alone (the planner moves the
// shell, measures, and gives every quantity), and whole frames with the ledger rendered and the plan painted. Writes
// results/bench.json.
import { mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { mouse } from '../hand.ts';
import { openDemo, settled, shellOnScreen } from '../site.ts';

const STEPS = 2000;
const SPOTS = 500;
const RESULTS = join(import.meta.dirname, '../results');
const BUILT = join(import.meta.dirname, '../../../www/dist/assets');
/** What the core may take of a frame at the median, and the whole of a frame at 60 a second, milliseconds. */
const CORE = 4;
const FRAME = 16;

interface Row {
  name: string;
  median_ms: number;
  p95_ms: number;
  worst_ms: number;
}

const rows: Row[] = [];

function row(name: string, times: number[]): Row {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
  const found = { name, median_ms: at(0.5), p95_ms: at(0.95), worst_ms: sorted.at(-1) ?? 0 };
  rows.push(found);
  return found;
}

test.beforeEach(async ({ page }) => {
  await openDemo(page, 'sloping-hillside.json');
  // Rolling ground over the whole lot, from exactly as many spots as the target names.
  await page.evaluate((count) => {
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = window.bench.ask((p) => Array.from(p.extent()), []);
    const side = Math.round(Math.sqrt(count));
    const spots: [number, number, number][] = [];
    for (let i = 0; i < count; i += 1) {
      const [u, v] = [(i % side) / (side - 1), Math.floor(i / side) / (side - 1)];
      const wobble = 0.3 * Math.sin(7 * u + 11 * v);
      spots.push([x0 + u * (x1 - x0) + wobble, y0 + v * (y1 - y0) - wobble, 31 - 1.2 * v + 0.2 * wobble]);
    }
    window.bench.ask((p) => p.apply({ 'set-ground': { spots: { spots } } }), undefined);
    window.bench.refresh();
  }, SPOTS);
  await settled(page);
});

test('the core, one drag frame', async ({ page }) => {
  const times = await page.evaluate((steps) => {
    const { ask } = window.bench;
    const shell = ask((p) => p.ledger().shell, null);
    if (!shell || ask((p) => p.grab(shell.at[0], shell.at[1], 0.1, 10), undefined) !== 'shell') return null;
    const taken: number[] = [];
    for (let i = 0; i < steps; i += 1) {
      const angle = (i / 240) * 2 * Math.PI;
      const reach = 2.5 * Math.sin((i / steps) * Math.PI);
      const x = shell.at[0] + reach * Math.cos(angle);
      const y = shell.at[1] + reach * Math.sin(angle);
      const start = performance.now();
      const rows = ask((p) => {
        p.bench_frame(x, y);
        return p.tally().quantities.length;
      }, 0);
      if (rows === 0) return null;
      taken.push(performance.now() - start);
    }
    ask((p) => p.cancel(), undefined);
    window.bench.refresh();
    return taken;
  }, STEPS);
  if (!times) throw new Error('the drag could not be timed');
  expect(times).toHaveLength(STEPS);
  const { median_ms } = row(`drag frame, core, ${SPOTS} spots`, times);
  expect(median_ms).toBeLessThan(CORE);
});

test('whole frames of a real drag', async ({ page }) => {
  await page.evaluate(() => {
    const taken: number[] = [];
    window.bench.watchFrames((milliseconds) => taken.push(milliseconds));
    Object.assign(window, { taken });
  });
  const start = await shellOnScreen(page);
  const hand = mouse(page);
  await hand.down(start);
  for (let i = 1; i <= 60; i += 1) {
    const angle = (i / 20) * 2 * Math.PI;
    await hand.to({ x: start.x + i * Math.cos(angle) * 0.8, y: start.y + i * Math.sin(angle) * 0.8 });
  }
  await hand.up();
  const times = await page.evaluate(() => (window as unknown as { taken: number[] }).taken);
  expect(times.length).toBeGreaterThan(30);
  const { median_ms } = row('drag frame, ledger and painting', times);
  expect(median_ms).toBeLessThan(FRAME);
});

test.afterAll(() => {
  mkdirSync(RESULTS, { recursive: true });
  writeFileSync(join(RESULTS, 'bench.json'), `${JSON.stringify(rows, null, 2)}\n`);
  const modules = readdirSync(BUILT).filter((file) => file.endsWith('.wasm'));
  const bytes = modules.reduce((sum, file) => sum + statSync(join(BUILT, file)).size, 0);
  console.log(JSON.stringify({ wasm_bytes: bytes, rows }, null, 2));
});
