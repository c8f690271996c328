/** A figure as it is shown: value in `unit`, and the ready text. */
export type Shown = { value: number; unit: string; text: string };
/** What is wrong or worth knowing: where, how bad, what to do. */
export type Finding = {
  severity: "note" | "caution" | "fault";
  check: string;
  place: string;
  at: [number, number] | null;
  message: string;
  remedy: string;
};
/** What kind of figure a number is. */
export type Measure =
  | "length" | "long-length" | "elevation" | "area" | "land-area" | "earth-volume" | "concrete-volume"
  | "water-volume" | "mass" | "weight" | "density" | "count" | "ratio" | "fraction" | "slope"
  | "bearing" | "heading" | "angle" | "closing"
  | "flow" | "speed" | "hours" | "minutes" | "money";
/** What the courses of the lot close to and enclose. */
export type LotClosing = {
  northing: Shown; easting: Shown; misclosure: Shown; direction: Shown | null; ratio: Shown | null;
  perimeter: Shown;
  area: { feet: Shown; metres: Shown } | null;
  stated: Shown | null; difference: Shown | null; poorer_than: Shown | null;
};
