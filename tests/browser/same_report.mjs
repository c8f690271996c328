// Native and wasm give the same bytes: for each demo site, as it lies there and moved about, the report of
// the built wasm module, and the list of the takeoff, equal what the command line prints. Needs BATTERBOARD_BIN and a built page.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const here = import.meta.dirname;
const wasm = join(here, '../../www/src/wasm');
const sites = join(here, '../../demo-sites');
const program = process.env.BATTERBOARD_BIN;
if (!program) throw new Error('BATTERBOARD_BIN must name the command line program');

const { initSync, Planner, Study } = await import(join(wasm, 'batterboard_web.js'));
initSync({ module: readFileSync(join(wasm, 'batterboard_web_bg.wasm')) });

/** What the worker would write. */
function written(site, question) {
  const study = new Study(site, question);
  for (let { done, of } = study.step(); done < of; { done, of } = study.step());
  const { value } = study.answer();
  study.free();
  return value;
}

/** Ways to stand that are tried on every site: shifts in metres, a heading in radians. */
const MOVES = [
  [],
  [{ 'nudge-shell': { east: -0.733, north: 0.211 } }, { 'turn-shell': { heading: 0.7071 } }],
  ['flip-shell', { 'turn-shell': { heading: 4.123 } }, { 'set-display': 'metres' }],
  [{ 'set-coping': { elevation: 31.317 } }, 'align-shell'],
];

const folder = mkdtempSync(join(tmpdir(), 'batterboard-'));
let compared = 0;
let different = 0;

function compare(name, planner) {
  const file = join(folder, 'site.json');
  const site = planner.save();
  writeFileSync(file, site);
  for (const [[command, ...flags], ours] of [
    [['report', '--json'], written(site, 'report-json')],
    [['report'], written(site, 'report-text')],
    [['takeoff', '--csv'], written(site, 'takeoff-list')],
  ]) {
    const printed = execFileSync(program, [command, file, ...flags], { encoding: 'utf8' });
    compared += 1;
    if (printed === ours) continue;
    different += 1;
    const at = [...printed].findIndex((letter, index) => letter !== ours[index]);
    console.error(`${name} ${command} ${flags.join(' ')}: the two part at character ${at}`);
    console.error(`  native: ${JSON.stringify(printed.slice(Math.max(0, at - 60), at + 60))}`);
    console.error(`  wasm:   ${JSON.stringify(ours.slice(Math.max(0, at - 60), at + 60))}`);
  }
}

try {
  for (const file of readdirSync(sites).sort()) {
    if (!file.endsWith('.json')) continue;
    const text = readFileSync(join(sites, file), 'utf8');
    if (JSON.parse(text).format !== 'batterboard-site') continue;
    for (const [number, moves] of MOVES.entries()) {
      const planner = new Planner();
      if (!planner.open(text).ok) throw new Error(`${file} does not open`);
      for (const move of moves) {
        const { ok, findings } = planner.apply(move);
        if (!ok) throw new Error(`${file}: ${JSON.stringify(move)}: ${JSON.stringify(findings)}`);
      }
      compare(`${file}, standing ${number}`, planner);
      planner.free();
    }
  }
} finally {
  rmSync(folder, { recursive: true });
}
console.log(`${compared} reports compared, ${different} different`);
if (different > 0 || compared === 0) process.exit(1);
