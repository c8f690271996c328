// The site document as plain data, named as in a site file. Only what the forms read and write is
// spelt out; the core checks everything that comes back.

import type { Works } from './works.ts';

export type System = 'feet' | 'metres';
export type Point = [number, number];
/** `[x, y]`, or `[x, y, bulge]` where an arc follows. */
export type Vertex = [number, number] | [number, number, number];

export interface Site {
  name: string;
  note?: string;
  display: System;
  lot: LotRecord;
  features: Feature[];
  ground: GroundRecord;
  placement?: Placement;
  equipment?: EquipmentPad;
  works: Works;
  rules: Rule[];
  benchmark?: Benchmark;
  origin?: GeoOrigin;
  grid?: Grid;
  picture?: Picture;
  /** The interval of the contours, metres. */
  contours?: number;
  rates?: Rate[];
  section?: SectionLine;
  alternatives?: Alternative[];
}

/** What one SI unit of a quantity costs. */
export interface Rate {
  key: string;
  rate: number;
}

/** Where the section is cut, site metres. */
export interface SectionLine {
  from: Point;
  to: Point;
}

/** A shell and a place kept to be compared. */
export interface Alternative {
  name: string;
  placement: Placement;
}

/** The mark that elevations are carried from. */
export interface Benchmark {
  name?: string;
  at?: Point;
  elevation: number;
  assumed: boolean;
}

/** Where the site's origin lies on the earth, radians. */
export interface GeoOrigin {
  longitude: number;
  latitude: number;
}

/** The survey grid that the site's coordinates were brought down from, metres. */
export interface Grid {
  easting: number;
  northing: number;
  unit: 'metres' | 'feet' | 'survey-feet';
}

/** A picture under the plan; `data` is base64, `scale` metres to the pixel. */
export interface Picture {
  name?: string;
  media: 'png' | 'jpeg' | 'webp';
  data: string;
  width: number;
  height: number;
  at: Point;
  scale: number;
  heading: number;
  opacity: number;
  hidden?: boolean;
  locked?: boolean;
}

export const LINE_KINDS = ['front', 'side', 'rear', 'street-side', 'shared', 'unspecified'] as const;
export type LineKind = (typeof LINE_KINDS)[number];

export type CourseShape =
  | { line: { bearing: number; distance: number } }
  | { curve: { chord_bearing: number; chord: number; radius: number; turn: 'left' | 'right'; long_way?: boolean } };

/** One side of the lot as a deed describes it. */
export interface Course {
  kind?: LineKind;
  shape: CourseShape;
  label?: string;
  /** What marks the corner where it starts. */
  monument?: Monument;
}

export const MONUMENT_KINDS = ['iron-rod', 'iron-pipe', 'concrete', 'stone', 'nail', 'cut', 'post', 'other'] as const;
export const MONUMENT_STATES = ['not-searched', 'found', 'set', 'not-found'] as const;

export interface Monument {
  kind: (typeof MONUMENT_KINDS)[number];
  state: (typeof MONUMENT_STATES)[number];
  note?: string;
}

export const NORTHS = ['unspecified', 'true', 'grid', 'magnetic', 'assumed', 'record'] as const;

/** What the bearings of a lot count from. */
export interface Basis {
  north: (typeof NORTHS)[number];
  words?: string;
  /** Where true north lies in the bearings of the lot, radians. */
  true_north?: number;
}

export interface LotRecord {
  start?: Point;
  courses?: Course[];
  stated_area?: number;
  closing_ratio?: number;
  /** How a misclosure is spread over the corners; the courses stay as described. */
  balance?: 'compass-rule';
  basis?: Basis;
  /** The text the courses were taken from. */
  deed?: string;
}

export const FEATURE_KINDS = [
  'house',
  'outbuilding',
  'wall',
  'fence',
  'driveway',
  'walk',
  'tree',
  'easement',
  'septic-tank',
  'septic-field',
  'well',
  'buried-line',
  'overhead-line',
  'equipment',
  'watercourse',
  'street-edge',
  'deck',
  'deck-opening',
  'deck-steps',
  'pipe-trench',
  'spoil-space',
  'other',
] as const;
export type FeatureKind = (typeof FEATURE_KINDS)[number];

export type ShapeRecord =
  | { area: Vertex[] }
  | { track: Vertex[] }
  | { disc: { at: Point; radius: number } }
  | { strip: { path: Vertex[]; width: number } }
  | { along: { course: number; width: number } }
  | { compound: { outer: Vertex[]; holes?: Vertex[][] }[] };

export const UTILITIES = ['electric', 'gas', 'communication', 'water', 'reclaimed', 'sewer'] as const;
export type Utility = (typeof UTILITIES)[number];

export interface Feature {
  id: string;
  kind: FeatureKind;
  name?: string;
  shape: ShapeRecord;
  hidden?: boolean;
  locked?: boolean;
  facts?: Facts;
  note?: string;
}

/** What is known of a feature; which facts belong to which kind the core tells. */
export interface Facts {
  finished_floor?: number;
  footing_depth?: number;
  height?: number;
  depth?: number;
  trunk?: number;
  protection?: number;
  utility?: Utility;
  line_class?: (typeof LINE_CLASSES)[number];
  known_from?: (typeof KNOWN_FROM)[number];
  openings?: Opening[];
}

export const LINE_CLASSES = ['communication', 'service', 'to-15-kv', 'over-15-kv'] as const;
export const KNOWN_FROM = ['marked', 'drawing', 'memory'] as const;

/** A door of a building, or a gate. */
export interface Opening {
  at: Point;
  width: number;
  name?: string;
}

export type GroundRecord =
  | { level: { elevation: number } }
  | { plane: { at: Point; elevation: number; fall: number; towards: number } }
  | { spots: { spots: [number, number, number][]; breaklines?: [number, number, number][][] } };

export interface Placement {
  shell: { catalogue: string } | { own: ShellRecord };
  at: Point;
  heading: number;
  mirrored: boolean;
  coping_elevation: number;
}

export interface EquipmentPad {
  at: Point;
  heading: number;
  length: number;
  width: number;
}

export const FACET_KINDS = ['ledge', 'step', 'bench', 'shallow', 'slope', 'deep'] as const;
/** A part of the floor. */
export type FacetKind = (typeof FACET_KINDS)[number];

export interface ShellRecord {
  name: string;
  note?: string;
  outline: Vertex[];
  floor?: { kind: FacetKind; outline: Vertex[]; depths: number[] }[];
  coping_width: number;
  waterline: number;
  wall_thickness?: number;
  /** How far the wall leans inward, run per unit of depth. */
  draft?: number;
  cove?: number;
  /** The floor told along the length, in place of facets. */
  stations?: { at: number; depth: number; width?: number; wall?: number }[];
  drain?: Point;
  weight?: number;
}

export const MEASURED_FROM = ['waters-edge', 'rim', 'deck-edge', 'equipment', 'dig'] as const;
export type MeasuredFrom = (typeof MEASURED_FROM)[number];
export const FEATURE_PARTS = ['tree-trunk', 'tree-protection', 'door', 'gate'] as const;
export type MeasuredTo =
  | { 'lot-line': { kind?: LineKind } }
  | { feature: { kind: FeatureKind } }
  | { part: { part: (typeof FEATURE_PARTS)[number] } };

export interface Rule {
  name: string;
  from: MeasuredFrom;
  to: MeasuredTo;
  distance: number;
  source: string;
}
