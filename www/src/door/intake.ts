// The module that reads and writes text. It is loaded when first wanted.
import glueUrl from '../wasm/batterboard_intake.js?url';
import wasmUrl from '../wasm/batterboard_intake_bg.wasm?url';
import { livingModule } from './engine.ts';
import type { GroundRecord, LotRecord, ShellRecord, System } from './records.ts';
import type {
  BreaklineReading,
  DeedReading,
  Finding,
  GroundMade,
  ListChoice,
  LotCorner,
  MapBrought,
  MapParts,
  MapReading,
  MapSettings,
  PlaceReading,
  SpotReading,
  SpotRow,
  Towards,
  WalkReading,
  Written,
} from './shapes.ts';

/** The figures of a rectangular shell beside its stations: metres, kilograms, run per unit of depth. */
export interface RectangleFigures {
  name: string;
  length: number;
  width: number;
  corner: number;
  coping: number;
  waterline: number;
  thickness: number;
  draft: number;
  cove: number;
  weight: number | null;
}

/** What the module exports; see crate/web/src/intake. */
export interface Intake {
  /** The lot's corners in the order of its courses. */
  lot_corners(lot: LotRecord, ground: GroundRecord): LotCorner[];
  /** The ground with these elevations (metres) at the corners. */
  ground_by_corners(lot: LotRecord, ground: GroundRecord, elevations: (number | null)[]): GroundMade;
  /** An even fall across the lot: `drop` metres down from `elevation`. */
  ground_by_fall(lot: LotRecord, elevation: number, drop: number, towards: Towards, system: System): GroundMade;
  /** Reads a table of spots; with benchmark and backsight (metres) its last column holds rod readings. */
  read_spots(
    text: string,
    system: System,
    benchmark: number | undefined,
    backsight: number | undefined,
    known: SpotRow[],
  ): SpotReading;
  /** Reads a table of breaklines. */
  read_breaklines(text: string, system: System, known: SpotRow[][]): BreaklineReading;
  /** Writes breaklines (or spots, as one line) as a table. */
  write_breaklines(lines: SpotRow[][], system: System): string;
  /** Reads a deed or a list of courses for a lot of which the rest stays. */
  read_deed(text: string, rest_of_lot: LotRecord, system: System): DeedReading;
  /** Reads a walk round a house that starts at a place, facing along a bearing (radians). */
  read_walk(text: string, x: number, y: number, facing: number, square: boolean, system: System): WalkReading;
  /** What is in a map or a list of points, and where it would lie on a site. */
  read_map(text: string, site: string, settings: MapSettings | null): MapReading;
  /** The edit that brings it in, with a role for each thing. */
  bring_map(text: string, site: string, settings: MapSettings, roles: string[]): MapBrought;
  /** A site as GeoJSON; its figures come from the planner. */
  write_map(site: string, figures: object, parts: MapParts): Written;
  /** A site as a list of points. */
  write_list(site: string, figures: object, choice: ListChoice): Written;
  /** A rectangular shell whose floor a table of stations tells: from the shallow end, depth, width, wall. */
  shell_by_stations(
    figures: RectangleFigures,
    table: string,
    system: System,
  ): { shell: ShellRecord | null; findings: Finding[] };
  /** A latitude and longitude as the origin of a site. */
  read_place(text: string): PlaceReading;
}

/** The module, loaded if need be. */
export const intake = livingModule<Intake>('intake', glueUrl, wasmUrl);
