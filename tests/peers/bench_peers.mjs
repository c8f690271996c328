// The questions of `crate/core/benches/peers` in the browser's engine: the core as it is built for the page, clipper2-ts, JSTS
// and Turf. Reads one line of JSON for each question and prints one for each answer: who gives it, the median of
// milliseconds, and the answer.
//
// Not a check: `cargo xtask bench --only peers` runs it.
//   node tests/peers/bench_peers.mjs FOLDER-OF-THE-CORE < questions
import { createInterface } from 'node:readline';
import { createRequire } from 'node:module';
import * as turf from '@turf/turf';
import { Clipper, EndType, FillRule, JoinType } from 'clipper2-ts';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import DelaunayTriangulationBuilder from 'jsts/org/locationtech/jts/triangulate/DelaunayTriangulationBuilder.js';

const { Asked } = createRequire(import.meta.url)(`${process.argv[2]}/peers.js`);

/** A question is asked again and again for so long, ms, but not more often than the second figure. */
const LONG_ENOUGH = 400;
const MOST_ROUNDS = 400;
/** Whole numbers to the meter for Clipper: a hundredth of a millimeter. */
const SCALE = 1e5;
/** Where more is asked, one answer takes longer than anybody waits. */
const MOST_OBSTACLES_FOR_CLIPPER = 10;
const MOST_SPOTS_FOR_TURF = 1000;
const MOST_SPOTS_FOR_JSTS = 10_000;
/** Sections of a hole, an even number: their areas are summed by Simpson's rule. */
const SECTIONS = 16;

const core = new Asked();

// --- clipper2-ts
const whole = (ring) => ring.map(([x, y]) => ({ x: Math.round(x * SCALE), y: Math.round(y * SCALE) }));
const areaOf = (paths) => Math.abs(Clipper.areaPaths(paths)) / SCALE ** 2;
const inflated = (path, distance, tolerance) => Clipper.inflatePaths([path], distance * SCALE, JoinType.Round, EndType.Polygon, 2, tolerance * SCALE);

const clipper = {
  offset: ({ ring, distance }, tolerance) => {
    const path = whole(ring);
    return () => areaOf(inflated(path, distance, tolerance));
  },
  union: ({ a, b }) => {
    const [one, other] = [[whole(a)], [whole(b)]];
    return () => areaOf(Clipper.union(one, other, FillRule.NonZero));
  },
  'clear-ground': ({ lot, lot_apart, obstacles, figure }, tolerance) => {
    if (obstacles.length > MOST_OBSTACLES_FOR_CLIPPER) return null;
    const outline = whole(figure);
    const edge = whole(lot);
    const things = obstacles.map(({ apart, ring }) => ({ apart, ring: whole(ring) }));
    const at = (ring, { x, y }) => ring.map((p) => ({ x: p.x + x, y: p.y + y }));
    // The shell, widened and reflected, is summed with every obstacle and with the lot's edge by its own sum of two
    // figures, what lies inside an obstacle is filled, and all of it is taken out of the lot.
    return () => {
      const held = new Map();
      const grown = (apart) => {
        if (!held.has(apart)) held.set(apart, inflated(outline, apart, tolerance)[0].map(({ x, y }) => ({ x: -x, y: -y })));
        return held.get(apart);
      };
      const barred = [];
      const sum = (shell, ring) => {
        barred.push(...Clipper.minkowskiSum(shell, ring, true));
        // It is that of the two edges: the shell round a corner is barred as well.
        for (const corner of ring) barred.push(at(shell, corner));
      };
      sum(grown(lot_apart), edge);
      for (const { apart, ring } of things) {
        sum(grown(apart), ring);
        // And the shell inside an obstacle.
        barred.push(at(ring, grown(apart)[0]));
      }
      return areaOf(Clipper.difference([edge], barred, FillRule.NonZero));
    };
  },
  dig: ({ floor, bottom, run, spots, level }, tolerance) => {
    if (spots.length) return null;
    const path = whole(floor);
    return () => sections(level - bottom, (up) => (up > 0 ? areaOf(inflated(path, up * run, tolerance)) : areaOf([path])));
  },
};

// --- JSTS
const factory = new GeometryFactory();
const polygon = (ring) => factory.createPolygon(factory.createLinearRing([...ring, ring[0]].map(([x, y]) => new Coordinate(x, y))));
const buffered = (figure, distance, tolerance) =>
  BufferOp.bufferOp(figure, distance, Math.max(1, Math.ceil(Math.PI / 4 / Math.acos(1 - tolerance / Math.abs(distance)))));

const ofJsts = {
  offset: ({ ring, distance }, tolerance) => {
    const figure = polygon(ring);
    return () => buffered(figure, distance, tolerance).getArea();
  },
  union: ({ a, b }) => {
    const [one, other] = [polygon(a), polygon(b)];
    return () => OverlayOp.union(one, other).getArea();
  },
  distance: ({ a, b }) => {
    const [one, other] = [polygon(a), polygon(b)];
    return () => DistanceOp.distance(one, other);
  },
  triangles: ({ spots }) => {
    if (spots.length > MOST_SPOTS_FOR_JSTS) return null;
    const places = factory.createMultiPointFromCoords(spots.map(([x, y]) => new Coordinate(x, y)));
    return () => {
      const builder = new DelaunayTriangulationBuilder();
      builder.setSites(places);
      return builder.getTriangles(factory).getNumGeometries();
    };
  },
  dig: ({ floor, bottom, run, spots, level }, tolerance) => {
    if (spots.length) return null;
    const figure = polygon(floor);
    return () => sections(level - bottom, (up) => (up > 0 ? buffered(figure, up * run, tolerance).getArea() : figure.getArea()));
  },
};

// --- Turf, which knows places on the globe alone: meters are laid out about the equator, where a degree is as long either way.
const METERS_TO_A_DEGREE = (turf.earthRadius * Math.PI) / 180;
const onGlobe = (ring) => turf.polygon([[...ring, ring[0]].map(([x, y]) => [x / METERS_TO_A_DEGREE, y / METERS_TO_A_DEGREE])]);

const ofTurf = {
  offset: ({ ring, distance }, tolerance) => {
    const figure = onGlobe(ring);
    const steps = Math.max(1, Math.ceil(Math.PI / 4 / Math.acos(1 - tolerance / Math.abs(distance))));
    return () => turf.area(turf.buffer(figure, distance, { units: 'meters', steps }));
  },
  union: ({ a, b }) => {
    const both = turf.featureCollection([onGlobe(a), onGlobe(b)]);
    return () => turf.area(turf.union(both));
  },
  triangles: ({ spots }) => {
    if (spots.length > MOST_SPOTS_FOR_TURF) return null;
    const places = turf.featureCollection(spots.map(([x, y]) => turf.point([x, y])));
    return () => turf.tin(places).features.length;
  },
};

/** What areas at even heights hold between them, by Simpson's rule: exact for sides that rise evenly round arcs. */
function sections(high, area) {
  let sum = 0;
  for (let i = 0; i <= SECTIONS; i += 1) sum += area((high * i) / SECTIONS) * (i === 0 || i === SECTIONS ? 1 : i % 2 ? 4 : 2);
  return (sum * high) / SECTIONS / 3;
}

function timed(name, who, once) {
  const answer = once();
  const times = [];
  const begun = performance.now();
  while (!times.length || (times.length < MOST_ROUNDS && performance.now() - begun < LONG_ENOUGH)) {
    const start = performance.now();
    once();
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  console.log(JSON.stringify({ name, who, ms: times[times.length >> 1], answer }));
}

for await (const line of createInterface({ input: process.stdin })) {
  const { task, tolerance } = JSON.parse(line);
  core.make_ready(task.name);
  timed(task.name, 'batterboard, wasm', () => core.once());
  for (const [who, peer] of [
    ['clipper2-ts', clipper],
    ['JSTS', ofJsts],
    ['Turf', ofTurf],
  ]) {
    const once = peer[task.ask]?.(task, tolerance);
    if (once) timed(task.name, who, once);
  }
}
