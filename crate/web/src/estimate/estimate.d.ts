export type QuantityRow = {
  key: string;
  group: "dig" | "grading" | "haul" | "stone" | "concrete" | "rods-and-forms" | "pipe" | "water";
  label: string;
  measure: Measure;
  shown: Shown;
  on: string;
  range: RangeRow | null;
  pays_for: string | null;
  rate: Shown | null;
  cost: Shown | null;
  caveats: string[];
};
/** Low and high, and what each doubt alone makes of it. */
export type RangeRow = {
  low: Shown; high: Shown; open: boolean;
  causes: { words: string; less: Shown; more: Shown }[];
};
/** Every quantity, what they cost, and the cautions that belong beside them. */
export type Tally = {
  quantities: QuantityRow[];
  cost: { groups: [string, Shown][]; total: Shown; low: Shown; high: Shown } | null;
  in_passing: boolean;
  findings: Finding[];
};
/** A figure both ways. */
export type Figure = { value: number; unit: string; shown: Shown; other: Shown };
/** What one doubt alone makes of a figure. */
export type CauseFigures = { doubt: string; words: string; less: Figure; more: Figure };
/** One quantity opened: the arithmetic behind it. */
export type Workings = {
  key: string; label: string; shown: Shown; other: Shown; on: string;
  range?: { low: Figure; high: Figure; open: boolean; causes: CauseFigures[] };
  formula: string; arithmetic: string;
  inputs: { name: string; shown: Shown; other: Shown; source: string }[];
  waste: string; rounding: string; source: string; assumptions: string[];
};
/** What the priced quantities cost. */
export type CostFigures = {
  lines: { key: string; label: string; rate: Shown; cost: Shown; low: Shown; high: Shown }[];
  groups: { group: string; label: string; sum: Shown }[];
  total: Shown; low: Shown; high: Shown; causes: CauseFigures[];
};
/** Placements side by side; differences are to the first, the present one. */
export type ComparisonFigures = {
  site: string;
  columns: { name: string; shell: string; faults: Finding[] }[];
  rows: {
    key: string; label: string; values: (Shown | null)[]; si: (number | null)[]; differences: (Shown | null)[];
  }[];
};
/** The ground at a glance. */
export type GroundWords = {
  low: Shown; high: Shown; proposed: number; proposed_shown: Shown; drawn: Shown | null; unknown: Shown | null;
};
/** How a fact is asked for: a figure of a measure, or a choice. */
export type FactForm = {
  fact: string; label: string; measure: Measure | null; least: number; most: number;
  choices: { value: string; words: string }[]; hint: string;
};
/** How a kind of feature is asked for. */
export type KindForm = {
  kind: string; words: string; shapes: string[]; facts: FactForm[]; opening: string | null; planned: boolean;
};
/** The section's line and what is read on it; places are site metres, the direction is radians. */
export type SectionFigures = {
  given: boolean;
  from: [number, number]; to: [number, number];
  length: number; bearing: number;
  dimensions: { label: string; text: string }[];
};
/** The copings at which cut and fill are even; `coping` in metres. */
export type BalanceFigures = {
  present: Shown;
  ways: {
    key: string; label: string; left: string; coping: number | null; shown: Shown | null; step: string | null;
  }[];
  findings: Finding[];
};
/** What an inch of coping changes. */
export type NudgeFigures = {
  by: Shown;
  rows: { key: string; label: string; present: Shown; up: Shown; down: Shown }[];
};
/** One run of pipe. */
export type RunRow = {
  label: string; fitting: number | null; length: string; straps: number; bends: number; loss: string; speed: string;
};
