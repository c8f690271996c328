export type QuantityRow = {
  key: string;
  group: "dig" | "grading" | "haul" | "stone" | "concrete" | "rods-and-forms" | "pipe" | "water";
  label: string;
  shown: Shown;
  caveats: string[];
};
/** Every quantity, and the cautions that belong beside them. */
export type Tally = { quantities: QuantityRow[]; findings: Finding[] };
/** One quantity opened: the arithmetic behind it. */
export type Workings = {
  key: string; label: string; shown: Shown; other: Shown;
  formula: string; arithmetic: string;
  inputs: { name: string; shown: Shown; source: string }[];
  waste: string; rounding: string; source: string;
};
