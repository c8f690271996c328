// What crosses between the page and the estimate: what is to be dug, hauled and bought, ready to be read.
import type { Finding, Measure, Outcome, Reading, Shown } from './shapes.ts';

/** One line of the takeoff. */
export interface Quantity {
  key: string;
  group: string;
  label: string;
  /** What kind of figure it is. */
  measure: Measure;
  shown: Shown;
  /** What it was measured on, to be lit up on the plan. */
  on: string;
  /** Low and high, where they are known; left out while the shell is dragged. */
  range: Range | null;
  /** What is paid for by it: a rate may be typed for it. Lines of one name measure the same thing; one is priced. */
  pays_for: string | null;
  rate: Shown | null;
  cost: Shown | null;
  caveats: string[];
}

/** Low and high, and what each doubt alone makes of the quantity. `open`: unknown ground is left out of them. */
export interface Range {
  low: Shown;
  high: Shown;
  causes: { words: string; less: Shown; more: Shown }[];
  open: boolean;
}

/** Every line, what they cost, and the cautions that belong beside them. */
export interface Tally {
  quantities: Quantity[];
  cost: { groups: [string, Shown][]; total: Shown; low: Shown; high: Shown } | null;
  /** Low and high were left out, because the shell is being dragged. */
  in_passing: boolean;
  findings: Finding[];
}

/** A figure both ways. */
export interface Figure {
  value: number;
  unit: string;
  shown: Shown;
  other: Shown;
}

/** What one doubt alone makes of a figure. */
export interface CauseFigures {
  doubt: string;
  words: string;
  less: Figure;
  more: Figure;
}

/** What the priced quantities cost. */
export interface CostFigures {
  lines: { key: string; label: string; rate: Shown; cost: Shown; low: Shown; high: Shown }[];
  groups: { group: string; label: string; sum: Shown }[];
  total: Shown;
  low: Shown;
  high: Shown;
  causes: CauseFigures[];
}

/** Placements side by side; differences are to the first, the present one. */
export interface Comparison {
  site: string;
  columns: { name: string; shell: string; faults: Finding[] }[];
  rows: {
    key: string;
    label: string;
    values: (Shown | null)[];
    si: (number | null)[];
    differences: (Shown | null)[];
  }[];
}

/** One quantity opened: the arithmetic behind it. */
export interface Workings {
  key: string;
  label: string;
  shown: Shown;
  other: Shown;
  on: string;
  range?: { low: Figure; high: Figure; causes: CauseFigures[]; open: boolean };
  formula: string;
  arithmetic: string;
  inputs: { name: string; shown: Shown; other: Shown; source: string }[];
  waste: string;
  rounding: string;
  source: string;
  assumptions: string[];
}

/** The estimate as the page sees it: the planner's site once more, and what it takes to build it. */
export interface Desk {
  free(): void;
  /** Takes over a site file; its picture's data may be left out. */
  open(text: string): Outcome;
  /** The shell stands elsewhere, and nothing else has changed. */
  place(x: number, y: number, heading: number, mirrored: boolean, coping: number): Outcome;
  /** None before a site was opened. */
  tally(): Tally | undefined;
  workings(key: string): Workings | undefined;
  /** A list for a spreadsheet; low and high are in it once the shell rests. */
  csv(): string;
  /** None before a rate is told. */
  cost(): CostFigures | undefined;
  compare(): Comparison | undefined;
  /** A typed rate for the quantity of a key; `value` is money for one SI unit, as a site file keeps it. */
  read_rate(text: string, key: string): Reading | undefined;
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
