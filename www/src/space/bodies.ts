// Bodies and lines as three.js draws them: one geometry and one call for each, lit once and not in every frame.
import { BufferAttribute, BufferGeometry, Color, EdgesGeometry, LineBasicMaterial, LineSegments, Mesh, MeshBasicMaterial, MeshLambertMaterial, type Material, type Object3D, type Plane } from 'three';
import type { SpaceBody } from '../paper/messages.ts';
import { colorOf, EARTH, hasEdges, markColor, seeThrough } from './colors.ts';
import { lay, normalsOf, type Toward } from './light.ts';
import type { SpaceModel } from './model.ts';

/** How much darker a cut is drawn than what it cuts, so that it is told from its sides. */
const CUT = 0.86;

/** A face of the ground that stands steeper than this is earth laid bare. */
const STEEP = 0.35;

/** Materials that bodies share: lit by hand, or by a lamp that casts shadows. */
interface Paints {
  laid: Material;
  lit: Material;
}

export interface Body {
  record: SpaceBody;
  corners: Float32Array;
  object: Mesh;
  edges: LineSegments | undefined;
  normals: Float32Array;
  tints: Float32Array;
  colors: Uint8Array;
  paints: Paints;
}

export interface Line {
  from: number;
  to: number;
  object: LineSegments;
}

/** Everything that is drawn, and what it is drawn with. */
export interface Drawn {
  bodies: Body[];
  lines: Line[];
  materials: Material[];
  /** Of lines and edges: what a cut is to leave out of them. */
  strokes: LineBasicMaterial[];
}

function paints(opacity: number): Paints {
  const transparent = opacity < 1;
  // Pushed back a little, so that lines on a face are seen.
  const given = { vertexColors: true, transparent, opacity, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
  return { laid: new MeshBasicMaterial(given), lit: new MeshLambertMaterial(given) };
}

/** The tints of a body's triangles before any light falls on them, three figures to a triangle. */
function tintsOf(record: SpaceBody, normals: Float32Array): Float32Array {
  const own = new Color(colorOf(record));
  const earth = new Color(EARTH);
  const tints = new Float32Array(normals.length);
  const bare = record.matter === 'ground' || record.matter === 'dig';
  const wall = 3 * (record.triangles - record.wall);
  for (let i = 0; i < tints.length; i += 3) {
    const steep = bare && Math.abs(normals[i + 2] ?? 0) < STEEP;
    const { r, g, b } = steep ? earth : own;
    const share = i >= wall ? CUT : 1;
    tints.set([r * share, g * share, b * share], i);
  }
  return tints;
}

/** The same three figures for every corner of a triangle. */
function toCorners(figures: Float32Array): Float32Array {
  const all = new Float32Array(figures.length * 3);
  for (let t = 0, i = 0; t < figures.length; t += 3) {
    for (let corner = 0; corner < 3; corner += 1, i += 3) all.set(figures.subarray(t, t + 3), i);
  }
  return all;
}

function bodyOf(record: SpaceBody, corners: Float32Array, paint: Paints, stroke: LineBasicMaterial): Body {
  const normals = normalsOf(corners);
  const tints = tintsOf(record, normals);
  const colors = new Uint8Array(corners.length);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(corners, 3));
  geometry.setAttribute('color', new BufferAttribute(colors, 3, true));
  const object = new Mesh(geometry, paint.laid);
  object.matrixAutoUpdate = false;
  let edges: LineSegments | undefined;
  if (hasEdges(record.matter)) {
    const whole = new BufferGeometry();
    whole.setAttribute('position', new BufferAttribute(corners.subarray(0, record.whole * 9), 3));
    edges = new LineSegments(new EdgesGeometry(whole, 40), stroke);
    edges.matrixAutoUpdate = false;
  }
  return { record, corners, object, edges, normals, tints, colors, paints: paint };
}

export function drawnOf(model: SpaceModel): Drawn {
  const solid = paints(1);
  const strokes: LineBasicMaterial[] = [];
  const stroke = (color: string, opacity = 1): LineBasicMaterial => {
    const it = new LineBasicMaterial({ color, transparent: opacity < 1, opacity });
    strokes.push(it);
    return it;
  };
  const edge = stroke('#3a444a', 0.55);
  const materials: Material[] = [solid.laid, solid.lit];
  const bodies = model.record.bodies.map((record, i) => {
    const opacity = seeThrough(record.matter);
    const paint = opacity < 1 ? paints(opacity) : solid;
    if (paint !== solid) materials.push(paint.laid, paint.lit);
    return bodyOf(record, model.corners[i] ?? new Float32Array(), paint, edge);
  });
  const lines = linesOf(model, stroke);
  return { bodies, lines, materials, strokes };
}

/** Lines of one kind and one span of stages as one object. */
function linesOf(model: SpaceModel, stroke: (color: string) => LineBasicMaterial): Line[] {
  const gathered = new Map<string, { i: number; ends: number[] }>();
  model.record.marks.forEach((mark, i) => {
    const key = `${mark.kind} ${mark.from} ${mark.to}`;
    const of = gathered.get(key) ?? { i, ends: [] };
    gathered.set(key, of);
    const points = model.points[i] ?? new Float32Array();
    for (let k = 0; k + 5 < points.length; k += 3) of.ends.push(...points.subarray(k, k + 6));
  });
  return [...gathered.values()].flatMap(({ i, ends }) => {
    const mark = model.record.marks[i];
    if (!mark) return [];
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(new Float32Array(ends), 3));
    const object = new LineSegments(geometry, stroke(markColor(mark)));
    object.matrixAutoUpdate = false;
    return [{ from: mark.from, to: mark.to, object }];
  });
}

/** From these stages on a body lies under others wherever one looks from, and is drawn only where it is cut. */
const BURIED: Record<string, number> = { 'soil under the hole': 5, base: 5, backfill: 6 };

/** Shows a stage, whole or cut. */
export function stageOf(drawn: Drawn, stage: number, cut: Plane | undefined): void {
  const there = (it: { from: number; to: number }): boolean => it.from <= stage && stage <= it.to;
  for (const { record, object, edges } of drawn.bodies) {
    const buried = !cut && stage >= (BURIED[record.matter] ?? Infinity);
    object.visible = there(record) && !buried;
    if (edges) edges.visible = object.visible;
    if (cut) object.geometry.setDrawRange(record.cut * 3, (record.triangles - record.cut) * 3);
    else object.geometry.setDrawRange(0, record.whole * 3);
  }
  for (const line of drawn.lines) line.object.visible = there(line);
  for (const it of drawn.strokes) {
    const planes = cut ? [cut] : null;
    if ((it.clippingPlanes === null) !== (planes === null)) it.needsUpdate = true;
    it.clippingPlanes = planes;
  }
}

/** Lays the light of a sun on everything; with `lit`, a lamp lights it and casts shadows instead. */
export function lightOn({ bodies }: Drawn, sun: Toward, lit: boolean): void {
  for (const body of bodies) {
    const { object, normals, tints, colors, paints: paint } = body;
    object.material = lit ? paint.lit : paint.laid;
    object.castShadow = lit && body.record.matter !== 'water';
    object.receiveShadow = lit;
    if (lit && !object.geometry.hasAttribute('normal')) {
      object.geometry.setAttribute('normal', new BufferAttribute(toCorners(normals), 3));
    }
    if (lit) {
      const plain = toCorners(tints);
      for (let i = 0; i < plain.length; i += 1) colors[i] = (plain[i] ?? 0) * 255;
    } else lay(colors, tints, normals, sun);
    const color = object.geometry.getAttribute('color');
    color.needsUpdate = true;
  }
}

/** Everything that was made is given back. */
export function forget(drawn: Drawn): void {
  const objects: Object3D[] = [...drawn.bodies.flatMap((it) => [it.object, it.edges ?? it.object]), ...drawn.lines.map((it) => it.object)];
  for (const it of objects) {
    it.removeFromParent();
    if (it instanceof Mesh || it instanceof LineSegments) it.geometry.dispose();
  }
  for (const it of [...drawn.materials, ...drawn.strokes]) it.dispose();
}

/** What nobody stands on: who walks goes by the ground, through a building as well. */
const NO_GROUND = new Set([
  'tree crown', 'tree trunk', 'overhead line', 'water', 'fence', 'buried line', 'house', 'outbuilding', 'wall', 'spoil pile',
]);

/** The highest ground at a place no higher than a step above a level; nothing where there is none. */
export function groundAt({ bodies }: Drawn, x: number, y: number, from: number): number | undefined {
  let best: number | undefined;
  for (const { record, corners, object } of bodies) {
    if (!object.visible || NO_GROUND.has(record.matter)) continue;
    const { start, count } = object.geometry.drawRange;
    for (let i = start * 3; i < (start + count) * 3; i += 9) {
      const level = heightIn(corners, i, x, y);
      if (level !== undefined && level <= from && (best === undefined || level > best)) best = level;
    }
  }
  return best;
}

/** The height of a triangle over a place; nothing beside it. */
function heightIn(corners: Float32Array, i: number, x: number, y: number): number | undefined {
  const at = (n: number): number => corners[i + n] ?? 0;
  const [ax, ay, bx, by, cx, cy] = [at(0), at(1), at(3), at(4), at(6), at(7)];
  const whole = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  if (Math.abs(whole) < 1e-9) return undefined;
  const u = ((x - ax) * (cy - ay) - (y - ay) * (cx - ax)) / whole;
  const v = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / whole;
  if (u < 0 || v < 0 || u + v > 1) return undefined;
  return at(2) + u * (at(5) - at(2)) + v * (at(8) - at(2));
}
