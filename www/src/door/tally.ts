// What crosses between the page and the estimate: what is to be dug, hauled and bought, ready to be read, and what
// forms ask for while they are filled in.
import type { Finding, GroundWords, KindForm, Measure, Outcome, Reading, Shown } from './shapes.ts';

/** The groups of the takeoff. */
export type Group = 'dig' | 'grading' | 'haul' | 'stone' | 'concrete' | 'rods-and-forms' | 'pipe' | 'water';

/** Low and high of a figure and what each doubt alone makes of it; `open` where part of the ground is unknown and
    nobody can say how far out the figure is there. */
export interface Range<Figure> {
  low: Figure;
  high: Figure;
  causes: { words: string; less: Figure; more: Figure }[];
  open: boolean;
}

/** One line of the takeoff. */
export interface Quantity {
  key: string;
  group: Group;
  label: string;
  shown: Shown;
  caveats: string[];
  /** None where nothing moves it, and while the shell is dragged. */
  range: Range<Shown> | null;
  /** What is paid for by it; none where it is not bought or paid. */
  pays_for: string | null;
  /** Its rate (`45.00 per short ton`) and its cost, where it is priced. */
  rate: Shown | null;
  cost: Shown | null;
}

/** What everything with a rate costs. */
export interface Costs {
  groups: [group: Group, sum: Shown][];
  total: Shown;
  low: Shown;
  high: Shown;
}

/** Every line, and the cautions that belong beside them. */
export interface Tally {
  quantities: Quantity[];
  cost: Costs | null;
  /** Low and high were left out, because the shell is being dragged. */
  in_passing: boolean;
  findings: Finding[];
}

/** A figure in both systems of units. */
export interface Both {
  shown: Shown;
  other: Shown;
}

/** One quantity opened: the arithmetic behind it. */
export interface Workings {
  key: string;
  label: string;
  shown: Shown;
  other: Shown;
  formula: string;
  arithmetic: string;
  inputs: { name: string; shown: Shown; other: Shown; source: string }[];
  waste: string;
  rounding: string;
  source: string;
  assumptions: string[];
  range?: Range<Both>;
}

/** What the total cost comes from. */
export interface CostFigures {
  total: Shown;
  low: Shown;
  high: Shown;
  causes: Range<Both>['causes'];
}

/** Places side by side: the present one first. */
export interface Comparison {
  columns: { name: string; shell: string; faults: Finding[] }[];
  rows: { key: string; label: string; values: (Shown | null)[]; differences: (Shown | null)[] }[];
}

/** The line of the section and what is read on it; places are site metres, the direction is radians. */
export interface SectionFigures {
  /** Whether the site says where it is cut; otherwise it runs along the shell. */
  given: boolean;
  from: [number, number];
  to: [number, number];
  length: number;
  bearing: number;
  dimensions: { label: string; text: string }[];
}

/** The copings at which cut and fill are even. */
export interface BalanceFigures {
  present: Shown;
  ways: {
    key: string;
    label: string;
    left: string;
    coping: number | null;
    shown: Shown | null;
    step: string | null;
  }[];
  findings: Finding[];
}

/** What an inch of coping changes. */
export interface NudgeFigures {
  by: Shown;
  rows: { key: string; label: string; present: Shown; up: Shown; down: Shown }[];
}

/** One run of pipe, from its fitting to the pad. */
export interface Run {
  label: string;
  /** The fitting's place in the settings; none for the shell's own drain. */
  fitting: number | null;
  length: string;
  straps: number;
  bends: number;
  loss: string;
  speed: string;
}

/** The estimate as the page sees it: the planner's site once more, and what it takes to build it. */
export interface Desk {
  free(): void;
  /** Takes over a site file; its picture's data may be left out. */
  open(text: string): Outcome;
  /** The shell stands elsewhere, and nothing else has changed. `cut`: the planner's, of the same place. */
  place(
    x: number,
    y: number,
    heading: number,
    mirrored: boolean,
    coping: number,
    cut: Float64Array | undefined,
  ): Outcome;
  /** None before a site was opened. */
  tally(): Tally | undefined;
  workings(key: string): Workings | undefined;
  /** Reads what is paid for one unit of a line; the value is money per SI unit. */
  read_rate(text: string, key: string): Reading | undefined;
  /** What a rate of a line is told for: `per short ton`. */
  rate_unit(key: string): string;
  /** The present place beside those that were kept. */
  compare(): Comparison | undefined;
  /** None before a shell is placed. */
  balance(): BalanceFigures | undefined;
  nudge(): NudgeFigures | undefined;
  /** None before a rate is told. */
  cost(): CostFigures | undefined;
  read_measure(text: string, measure: Measure): Reading;
  ground(): GroundWords | null;
  kind_forms(): KindForm[];
  usual_protection(trunk: number): number;
  figures(): object | null;
  /** Shows the section's line on the plan, or hides it. */
  show_section(shown: boolean): void;
  /** Takes hold of the section's line near a place, metres: of an end, or of what lies between. */
  take_section(x: number, y: number, reach: number, whole: boolean): boolean;
  drag_section(x: number, y: number): void;
  /** Lets go; `keep` false puts the line back. */
  drop_section(keep: boolean): void;
  /** The line turned about its middle, and as long as told: two places, or nothing. */
  laid_section(bearing: number, length: number): Float64Array;
  section(): SectionFigures | undefined;
  paint_section(
    ctx: CanvasRenderingContext2D,
    width: number,
    height: number,
    ratio: number,
    exaggeration: number,
  ): void;
  /** A fitting's place in the shell's frame from a place on the plan; empty while no shell is placed. */
  fitting_from_site(x: number, y: number, in_wall: boolean): Float64Array;
  /** How far a place of the shell's frame lies along the water's edge, metres. */
  along_edge(x: number, y: number): number;
  at_along_edge(along: number): Float64Array;
  runs(): Run[];
  /** Paints over what the planner painted, seen the same way. */
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
}
