// What crosses between the page and the estimate: what is to be dug, hauled and bought, ready to be read.
import type { Finding, Outcome, Shown } from './shapes.ts';

/** One line of the takeoff. */
export interface Quantity {
  key: string;
  group: string;
  label: string;
  shown: Shown;
  caveats: string[];
}

/** Every line, and the cautions that belong beside them. */
export interface Tally {
  quantities: Quantity[];
  findings: Finding[];
}

/** One quantity opened: the arithmetic behind it. */
export interface Workings {
  key: string;
  label: string;
  shown: Shown;
  other: Shown;
  formula: string;
  arithmetic: string;
  inputs: { name: string; shown: Shown; source: string }[];
  waste: string;
  rounding: string;
  source: string;
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
