// What crosses the wasm boundary: ready-made strings for the screen, and commands for the core.
// Lengths are metres, angles radians, bearings clockwise from north; x is east, y is north.
import type {
  Alternative,
  Benchmark,
  Course,
  EquipmentPad,
  Facts,
  Feature,
  FeatureKind,
  GeoOrigin,
  Grid,
  GroundRecord,
  LineKind,
  LotRecord,
  Picture,
  Placement,
  Point,
  Rate,
  Rule,
  SectionLine,
  ShellRecord,
  Site,
  System,
  Vertex,
} from './records.ts';
import type { Works } from './works.ts';

/** A value as it is to be read: the number shown, its unit, and both as ready text. */
export interface Shown {
  value: number;
  unit: string;
  text: string;
}

/** Something the user should know: what, where, and how to mend it. */
export interface Finding {
  severity: 'note' | 'caution' | 'fault';
  check: string;
  place: string;
  at: [number, number] | null;
  message: string;
  remedy: string;
}

/** What became of an edit. When it is not ok nothing was changed and the findings say why. */
export interface Outcome {
  ok: boolean;
  findings: Finding[];
}

/** One clearance: a distance measured, the least it should be, and the room that is left. */
export interface Clearance {
  index: number;
  name: string;
  from: string;
  target: string;
  distance: Shown;
  required: Shown;
  room: Shown;
  short: boolean;
  source: string;
  /** Why it is weaker than it looks, a few words each. */
  caveats: string[];
}

/** A spot: east, north, elevation, metres. */
export type SpotRow = [number, number, number];

/** A corner of the lot, and its elevation (metres) where the ground tells it. */
export interface LotCorner {
  course: number;
  name: string;
  at: [number, number];
  elevation: number | null;
}

/** Where an even fall goes. */
export type Towards = 'rear' | { side: { course: number } } | { bearing: { bearing: number } };

/** Ground made from figures, or why not. */
export interface GroundMade {
  ground: GroundRecord | null;
  words: string;
  findings: Finding[];
}

export interface SpotReading {
  spots: SpotRow[];
  findings: Finding[];
}

export interface BreaklineReading {
  lines: SpotRow[][];
  findings: Finding[];
}

/** The ground at a glance. */
export interface GroundWords {
  low: Shown;
  high: Shown;
  /** The contour interval that suits it, metres. */
  proposed: number;
  proposed_shown: Shown;
  drawn: Shown | null;
  unknown: Shown | null;
}

/** The shell as it stands. */
export interface PlacedShell {
  name: string;
  heading: Shown;
  coping: Shown;
  at: [number, number];
  mirrored: boolean;
  heading_value: number;
  coping_value: number;
}

/** Everything the page shows beside the plan. */
export interface Ledger {
  revision: number;
  name: string;
  note: string;
  display: System;
  undo: string | null;
  redo: string | null;
  shell: PlacedShell | null;
  snap: string | null;
  verdict: { short: number; over: number; text: string };
  clearances: Clearance[];
  findings: Finding[];
}

/** A shell of the catalogue, with enough of its shape for a thumbnail. */
export interface ShellCard {
  name: string;
  note: string;
  length: Shown;
  width: Shown;
  deepest: Shown;
  shallowest: Shown;
  area: Shown;
  water: Shown;
  outline: number[];
  facets: { kind: string; depth: number; points: number[] }[];
}

/** Typed text as the core understood it, perhaps with doubts, or why it did not. */
export type Reading =
  | { ok: true; value: number; text: string; doubts: { message: string; remedy: string }[] }
  | { ok: false; message: string; remedy: string };

/** A stretch of a deed, characters counted from 0; a course by its index, an area in m2. */
export interface DeedPiece {
  from: number;
  to: number;
  understood: 'beginning' | 'connective' | 'unread' | { course: number } | { area: number };
  message: string;
  remedy: string;
}

/** What the courses of a deed close to and enclose. */
export interface DeedFigures {
  northing: Shown;
  easting: Shown;
  misclosure: Shown;
  direction: Shown | null;
  ratio: Shown | null;
  perimeter: Shown;
  area: { feet: Shown; metres: Shown } | null;
  stated: Shown | null;
  difference: Shown | null;
  /** The ratio that was asked for, where the courses close worse. */
  poorer_than: Shown | null;
}

/** A deed as it was read; nothing of it is in the site yet. */
export interface DeedReading {
  pieces: DeedPiece[];
  courses: Course[];
  stated_area: number | null;
  figures: DeedFigures | null;
  /** The kinds that follow from the street named in the text, one a course. */
  kinds: LineKind[] | null;
  streets: { course: number; name: string }[];
  /** Whether the courses of the lot run as these do. */
  in_use: boolean;
  findings: Finding[];
}

/** How a map or a list is meant. */
export interface MapSettings {
  frame: 'degrees' | 'metres' | 'feet' | 'survey-feet';
  order: 'north-first' | 'east-first';
  heights: 'metres' | 'feet' | 'survey-feet';
  columns: { point: boolean; elevation: boolean } | null;
  lot: number | null;
  ring: number | null;
  fresh: boolean;
  keep_spots: boolean;
  spots_of_all: boolean;
}

/** One thing that was found; lines are x, y, x, y ... in site metres, closed ones come back to their start. */
export interface MapItem {
  place: string;
  name: string;
  group: string;
  words: string;
  form: 'points' | 'lines' | 'areas';
  size: Shown | null;
  rings: string[];
  proposed: string;
  lines: number[][];
  usable: boolean;
}

/** What is in a map or a list; `form` is null when nothing of it can be used. */
export interface MapReading {
  form: 'geo-json' | 'points' | null;
  settings: MapSettings | null;
  items: MapItem[];
  findings: Finding[];
}

/** What would come in, and the edit that does it. */
export interface MapBrought {
  told: string[];
  findings: Finding[];
  command: Command | null;
}

/** What of a site is written as a map. */
export interface MapParts {
  lot: boolean;
  features: boolean;
  shell: boolean;
  dig: boolean;
  ground: boolean;
}

/** What of a site is written as a list of points, and how. */
export interface ListChoice {
  frame: MapSettings['frame'];
  order: MapSettings['order'];
  corners: boolean;
  features: boolean;
  ground: boolean;
  shell: boolean;
}

/** A text, or why there is none. */
export interface Written {
  text: string | null;
  findings: Finding[];
}

/** A place on the globe as it was understood, or what to type. */
export interface PlaceReading {
  origin: GeoOrigin | null;
  text: string;
  message: string;
}

/** What kind of figure a number is. */
export type Measure =
  | 'length'
  | 'long-length'
  | 'elevation'
  | 'area'
  | 'land-area'
  | 'earth-volume'
  | 'concrete-volume'
  | 'water-volume'
  | 'mass'
  | 'weight'
  | 'density'
  | 'count'
  | 'ratio'
  | 'fraction'
  | 'slope'
  | 'bearing'
  | 'heading'
  | 'angle'
  | 'closing'
  | 'flow'
  | 'speed'
  | 'hours'
  | 'minutes'
  | 'money';

/** How a shape is given in a site file. */
export type ShapeForm = 'area' | 'track' | 'disc' | 'strip' | 'along' | 'compound';

/** How a fact is asked for. */
export interface FactForm {
  fact: Exclude<keyof Facts, 'openings'>;
  label: string;
  /** What kind of figure it is; none where it is a choice. */
  measure: Measure | null;
  least: number;
  most: number;
  choices: { value: string; words: string }[];
  hint: string;
}

/** How a kind of feature is asked for. */
export interface KindForm {
  kind: FeatureKind;
  words: string;
  /** The shapes it comes in, the usual one first. */
  shapes: ShapeForm[];
  facts: FactForm[];
  /** What one of its openings is called. */
  opening: string | null;
  /** It is part of the work to come, and drawn in the Dig step. */
  planned: boolean;
}

/** What a pointer has hold of. */
export type Held = 'shell' | 'turn' | 'equipment' | 'picture' | 'turn-picture' | 'corner' | 'middle' | 'edge' | 'whole' | 'radius';

/** One undoable edit. */
export type Command =
  | 'remove-shell'
  | 'flip-shell'
  | 'align-shell'
  | { 'choose-shell': { catalogue: string } | { own: ShellRecord } }
  | { 'move-shell': { at: [number, number] } }
  | { 'nudge-shell': { east: number; north: number } }
  | { 'turn-shell': { heading: number } }
  | { 'set-coping': { elevation: number } }
  | { 'set-works': Works }
  | { 'set-rules': Rule[] }
  | { 'set-ground': GroundRecord }
  | { 'set-lot': LotRecord }
  | { 'draw-lot': { corners: Vertex[] } }
  | { 'set-features': Feature[] }
  | { 'copy-feature': { id: string } }
  | { 'set-equipment': EquipmentPad | null }
  | { 'set-display': System }
  | { rename: { name: string; note: string } }
  | { 'set-benchmark': Benchmark | null }
  | { 'set-origin': GeoOrigin | null }
  | { 'set-grid': Grid | null }
  | { 'set-picture': Picture | null }
  | { 'fit-picture': { first: Point; second: Point; distance?: number; bearing?: number } }
  | { 'set-contours': number | null }
  | { 'set-placement': Placement }
  | { 'set-rates': Rate[] }
  | { 'set-section': SectionLine | null }
  | { 'set-alternatives': Alternative[] }
  | { together: { label: string; commands: Command[] } };

/** A stretch of a walk, characters counted from 0; a wall by its index. */
export interface WalkPiece {
  from: number;
  to: number;
  taken: 'turn' | 'between' | 'unread' | { wall: number };
  message: string;
  remedy: string;
}

/** A walk as it was read; nothing of it is in the site yet. */
export interface WalkReading {
  pieces: WalkPiece[];
  path: Vertex[];
  closed: boolean;
  walls: number;
  misses: string | null;
  round: string | null;
  area: string | null;
  squared: string | null;
  findings: Finding[];
}

export type DrawMode = 'straight' | 'arc' | 'rectangle';

/** A drawing under way; figures as ready text. */
export interface Drawn {
  points: Vertex[];
  at: Point | null;
  mode: DrawMode;
  /** What the next point is. */
  wants: 'first' | 'next' | 'on-arc' | 'arc-end' | 'opposite' | 'width' | 'rim';
  length: string | null;
  bearing: string | null;
  /** Both, metres and radians. */
  run: [number, number] | null;
  turn: string | null;
  radius: string | null;
  /** Why the point is where it is. */
  reason: string | null;
  closes: boolean;
  ready: boolean;
}

/** A drawing after a step; `done` is the path once it is finished. */
export interface DrawStep {
  drawn: Drawn | undefined | null;
  findings: Finding[];
  done: Vertex[] | undefined | null;
}

/** A shape being changed. */
export interface Shaped {
  name: string;
  form: 'closed' | 'open' | 'spots' | 'disc' | 'none';
  locked: boolean;
  corners: number;
  picked: 'corner' | 'edge' | 'arc' | null;
  /** `corner 3 of 6` */
  says: string;
  /** Length, metres, and bearing, radians, of the picked edge. */
  run: [number, number] | null;
  /** Why the last change was not made, or what it came to. */
  word: string;
}

export type ShapeDeed = 'next' | 'before' | 'add' | 'remove' | 'bend' | 'square' | 'nudge' | 'run';

/** The planner as the page sees it: one document, its history and what follows from it. */
export interface Planner {
  free(): void;
  open(text: string): Outcome;
  open_shell(text: string): Outcome;
  save(): string;
  save_bare(): string;
  open_kept(text: string, picture: string): Outcome;
  picture_stamp(): number;
  picture_data(): string;
  picture_words(): string;
  picture_place(width: number, height: number): Float64Array;
  show_picture(bitmap: ImageBitmap | undefined): void;
  fade_picture(opacity: number | undefined): void;
  apply(command: Command): Outcome;
  undo(): boolean;
  redo(): boolean;
  ledger(): Ledger;
  settings(): Site;
  catalogue(): ShellCard[];
  show_measure(value: number, measure: Measure): string;
  extent(): Float64Array;
  grab(x: number, y: number, reach: number, scale: number): Held | undefined;
  drag_to(x: number, y: number, snap: boolean): void;
  release(): void;
  cancel(): void;
  hover(x: number, y: number, reach: number, scale: number): Held | undefined;
  feature_at(x: number, y: number, reach: number): string | undefined;
  draw(wanted: 'point' | 'stretch' | 'disc' | 'open' | 'closed', start: Float64Array): void;
  show_path(closed: boolean, path: Float64Array): void;
  draw_at(x: number, y: number, reach: number): DrawStep;
  draw_typed(length: number, angle: number, how: string): DrawStep;
  draw_do(what: string): DrawStep;
  choose_shape(target: string): void;
  shaped(): Shaped | undefined;
  shape_do(what: ShapeDeed, a: number, b: number): Outcome;
  feature_id_at(x: number, y: number, reach: number): string | undefined;
  rectangle(x: number, y: number, bearing: number, along: number, across: number): Float64Array;
  /** The course whose side lies nearest to a place. */
  side_at(x: number, y: number, reach: number): number | undefined;
  /** `[x, y]` where a course starts; empty where there is none. */
  corner(course: number): Float64Array;
  /** A kind for every course, from the side on the street. */
  kinds_from_street(front: number | undefined, replace: boolean): LineKind[];
  /** How far a key moves the shell (metres) and turns it (radians): a small or a large step. */
  key_step(large: boolean): number;
  key_turn(large: boolean): number;
  paint(
    ctx: CanvasRenderingContext2D,
    width: number,
    height: number,
    ratio: number,
    centre_x: number,
    centre_y: number,
    scale: number,
    highlight: string,
  ): void;
  /** What the courses of a lot close to, whether it is in use or not. */
  closing(lot: LotRecord): DeedFigures | null;
  /** The clearance rules that a new job starts with. */
  example_rules(): Rule[];
  /** The hole as it is cut, for the estimate's desk; none before a shell is placed. */
  cut(): Float64Array | undefined;
  bench_frame(x: number, y: number): void;
}
