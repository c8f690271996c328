// The site document as plain data, named as in a site file. Only what the forms read and write is
// spelt out; the core checks everything that comes back.

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
}

export interface LotRecord {
  start?: Point;
  courses?: Course[];
  stated_area?: number;
  closing_ratio?: number;
  /** How a misclosure is spread over the corners; the courses stay as described. */
  balance?: 'compass-rule';
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
  'other',
] as const;
export type FeatureKind = (typeof FEATURE_KINDS)[number];

export type ShapeRecord = { area: Vertex[] } | { track: Vertex[] } | { disc: { at: Point; radius: number } };

export const UTILITIES = ['electric', 'gas', 'communication', 'water', 'reclaimed', 'sewer'] as const;
export type Utility = (typeof UTILITIES)[number];

export interface Feature {
  id: string;
  kind: FeatureKind;
  name?: string;
  shape: ShapeRecord;
  footing_depth?: number;
  utility?: Utility;
  note?: string;
}

export type GroundRecord =
  | { level: { elevation: number } }
  | { plane: { at: Point; elevation: number; fall: number; towards: number } }
  | { spots: { spots: [number, number, number][] } };

export interface Placement {
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

export interface ShellRecord {
  name: string;
  note?: string;
  outline: Vertex[];
  floor: { kind: string; outline: Vertex[]; depths: number[] }[];
  coping_width: number;
  waterline: number;
  wall_thickness?: number;
  weight?: number;
}

export type SoilClass = 'stable-rock' | 'a' | 'b' | 'c';
export type SpoilMaterial = 'sand' | 'common-earth' | 'clay' | 'rock';

export interface Works {
  dig: {
    over_dig: number;
    base_thickness: number;
    soil: SoilClass;
    side_slope?: number;
    material: SpoilMaterial;
    swell?: number;
  };
  stone: { density: number };
  collar: { width: number; depth: number; top_below_rim: number };
  deck: { width: number; thickness: number; bed: number; fall: number };
  ties: { spacing: number; length: number };
  dewatering: { diameter: number; above_rim: number };
  haul: { box_volume: number; payload: number };
  waste: { stone: number; concrete: number };
}

export const MEASURED_FROM = ['waters-edge', 'rim', 'deck-edge', 'equipment', 'dig'] as const;
export type MeasuredFrom = (typeof MEASURED_FROM)[number];
export type MeasuredTo =
  | { 'lot-line': { kind?: LineKind } }
  | { feature: { kind: FeatureKind } };

export interface Rule {
  name: string;
  from: MeasuredFrom;
  to: MeasuredTo;
  distance: number;
  source: string;
}
