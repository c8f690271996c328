// Clear ground at one heading, as clipper2-ts has it: what it takes and what area comes out. Reads scenes as the bench
// `clear_ground_peers` prints them, one line of JSON each, and prints a line for each that it was asked. The shell, widened
// and reflected, is summed with every obstacle and with the lot's edge by its own sum of two figures, what lies inside an
// obstacle is filled, and all of it is taken out of the lot.
//   node tests/browser/bench/clear_ground.mjs MOST < scenes
import { createInterface } from 'node:readline';
import { Clipper, EndType, FillRule, JoinType } from 'clipper2-ts';

/** Whole numbers to the meter: a hundredth of a millimeter. */
const SCALE = 1e5;
/** How far chords may lie off an arc: 1 mm. */
const CHORD = 0.001 * SCALE;
/** Headings that are asked about, each once: one takes seconds. */
const HEADINGS = 2;

const most = Number(process.argv[2]);
const path = (ring) => ring.map(([x, y]) => ({ x: Math.round(x * SCALE), y: Math.round(y * SCALE) }));
const reflected = (ring) => ring.map(({ x, y }) => ({ x: -x, y: -y }));

function clear({ lot, lot_apart, obstacles }, figure) {
  const held = new Map();
  const grown = (apart) => {
    if (!held.has(apart)) held.set(apart, reflected(Clipper.inflatePaths([figure], apart * SCALE, JoinType.Round, EndType.Polygon, 2, CHORD)[0]));
    return held.get(apart);
  };
  const at = (ring, { x, y }) => ring.map((p) => ({ x: p.x + x, y: p.y + y }));
  const barred = [];
  const sum = (shell, ring) => {
    barred.push(...Clipper.minkowskiSum(shell, ring, true));
    // It is that of the two edges: the shell round a corner is barred as well.
    for (const corner of ring) barred.push(at(shell, corner));
  };
  sum(grown(lot_apart), lot);
  for (const { apart, ring } of obstacles) {
    sum(grown(apart), ring);
    // And the shell inside an obstacle.
    barred.push(at(ring, grown(apart)[0]));
  }
  return Clipper.difference([lot], barred, FillRule.NonZero);
}

for await (const line of createInterface({ input: process.stdin })) {
  const scene = JSON.parse(line);
  if (scene.count > most) continue;
  const asked = {
    lot: path(scene.lot),
    lot_apart: scene.lot_apart,
    obstacles: scene.obstacles.map(({ apart, ring }) => ({ apart, ring: path(ring) })),
  };
  const times = [];
  const areas = [];
  for (const ring of scene.figures.slice(0, HEADINGS)) {
    const figure = path(ring);
    const start = performance.now();
    const found = clear(asked, figure);
    times.push(performance.now() - start);
    areas.push(Math.abs(Clipper.areaPaths(found)) / SCALE ** 2);
  }
  times.sort((a, b) => a - b);
  console.log(JSON.stringify({ count: scene.count, one_heading_ms: times[times.length >> 1], areas }));
}
