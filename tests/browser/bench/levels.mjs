// What a built module weighs and what one drag step takes of the processor with it, in node, on every demo site: how
// opt-levels are chosen. Time of the processor rather than of the clock, so that other work beside it counts little. Each folder holds what `cargo xtask build --no-page` wrote into www/src/wasm:
//   node tests/browser/bench/levels.mjs www/src/wasm /tmp/another ...
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { brotliCompressSync } from 'node:zlib';

const STEPS = 60;
const ROUNDS = 7;
/** Steps before, until the engine has compiled what runs often. */
const WARM = 20;
const SITES = join(import.meta.dirname, '../../../demo-sites');
const sites = readdirSync(SITES)
  .filter((file) => file.endsWith('.json'))
  .map((file) => ({ file, text: readFileSync(join(SITES, file), 'utf8') }))
  .filter(({ text }) => JSON.parse(text).format === 'batterboard-site');

/** The median of one drag step with its list of quantities, milliseconds. */
function step(Planner, text) {
  const planner = new Planner();
  planner.open(text);
  const [x, y] = planner.ledger(0).shell.at;
  if (planner.grab(x, y, 0.1, 10) !== 'shell') throw new Error('no shell to drag');
  const times = [];
  for (let i = -WARM; i < STEPS; i += 1) {
    const angle = (i / STEPS) * 4 * Math.PI;
    const start = process.cpuUsage();
    planner.drag_to(x + Math.sin(angle), y + Math.cos(angle) - 1, false);
    if (planner.tally().quantities.length === 0) throw new Error('a step gave no quantities');
    if (i >= 0) times.push(process.cpuUsage(start).user / 1000);
  }
  planner.free();
  return times.sort((a, b) => a - b)[STEPS / 2];
}

const modules = await Promise.all(
  process.argv.slice(2).map(async (folder) => {
    const bytes = readFileSync(join(folder, 'batterboard_web_bg.wasm'));
    const core = await import(resolve(folder, 'batterboard_web.js'));
    core.initSync({ module: bytes });
    return { folder, bytes, core, best: sites.map(() => Infinity) };
  }),
);
// In turn, so that a slower stretch of the machine meets them all; the best of the rounds counts.
for (let round = 0; round < ROUNDS; round += 1)
  for (const { core, best } of modules)
    sites.forEach(({ text }, i) => {
      best[i] = Math.min(best[i], step(core.Planner, text));
    });

console.log(['module', 'raw, B', 'Brotli, B', ...sites.map(({ file }) => `${basename(file, '.json')}, ms`)].join(' | '));
for (const { folder, bytes, best } of modules)
  console.log([basename(folder), bytes.length, brotliCompressSync(bytes).length, ...best.map((ms) => ms.toFixed(1))].join(' | '));
