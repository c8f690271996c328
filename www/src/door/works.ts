// The settings of the work as the site file holds them: metres, seconds, kilograms.
import type { FacetKind, Point } from './records.ts';

export type SoilClass = 'stable-rock' | 'a' | 'b' | 'c';
export type SpoilMaterial = 'sand' | 'common-earth' | 'clay' | 'rock';

export const HOLE_SIDES = ['ahead', 'left', 'behind', 'right'] as const;
export type HoleSide = (typeof HOLE_SIDES)[number];

/** How one side of the hole is dug otherwise. */
export interface SideSettings {
  side: HoleSide;
  over_dig?: number;
  slope?: number;
  note?: string;
}

/** A layer of other soil, down to a depth below the rim. */
export interface SoilLayer {
  down_to: number;
  soil: SoilClass;
  slope?: number;
}

export const FITTING_KINDS = ['return', 'skimmer', 'drain'] as const;

/** Where pipe leaves the shell, in its own frame. */
export interface Fitting {
  kind: (typeof FITTING_KINDS)[number];
  at: Point;
  depth: number;
}

export const PIPE_SIZES = ['one-and-half', 'two', 'two-and-half', 'three'] as const;

export interface Works {
  dig: {
    over_dig: number;
    base_thickness: number;
    soil: SoilClass;
    side_slope?: number;
    material: SpoilMaterial;
    swell?: number;
    density?: number;
    sides?: SideSettings[];
    bases?: { kind: FacetKind; thickness: number }[];
    layers?: SoilLayer[];
    upright_below?: number;
    bench?: { depth: number; width: number };
    short_term?: boolean;
  };
  stone: { density: number; voids: number; lift: number; fabric: boolean };
  collar: { width: number; depth: number; top_below_rim: number; bars: number };
  deck: {
    width: number;
    thickness: number;
    bed: number;
    fall: number;
    joint_spacing: number;
    rod_spacing: number;
  };
  ties: { spacing: number; length: number };
  dewatering: { diameter: number; above_rim: number; at?: Point; sump_depth: number; sump_width: number };
  haul: { box_volume: number; payload: number; cycle: number; trucks: number };
  waste: { stone: number; concrete: number; pipe: number; fabric: number; rods: number };
  pad: { thickness: number; bed: number };
  pipe: {
    fittings?: Fitting[];
    size: (typeof PIPE_SIZES)[number];
    flow: number;
    coefficient: number;
    bend: number;
    strap_spacing: number;
    off_wall: number;
    encasement: number;
    trench_width: number;
    trench_depth: number;
  };
  grading: { bank_slope: number; retained_limit: number };
  spoil: { reuse: boolean; piled: number; repose: number; most_height: number; back: number; at?: Point };
  /** Elevation to which groundwater stands at its highest. */
  groundwater?: number;
  doubt: { swell: number; over_dig: number; ground: number };
}
