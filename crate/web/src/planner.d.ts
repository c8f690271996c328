/** Whether an edit was taken; if not, nothing was changed and the findings say why. */
export type Outcome = { ok: boolean; findings: Finding[] };
/** A typed figure: understood (SI value, maybe with doubts) or not (what to type instead). */
export type Reading =
  | { ok: true; value: number; text: string; doubts: { message: string; remedy: string }[] }
  | { ok: false; message: string; remedy: string; from: number; to: number };
export type ClearanceRow = {
  index: number; name: string; from: string; target: string;
  distance: Shown; required: Shown; room: Shown; short: boolean; source: string;
};
/** Everything the page lists beside the plan. */
export type Ledger = {
  revision: number; name: string; note: string; display: "feet" | "metres";
  undo: string | null; redo: string | null;
  shell: {
    name: string; heading: Shown; heading_value: number; coping: Shown; coping_value: number;
    at: [number, number]; mirrored: boolean;
  } | null;
  snap: string | null;
  verdict: { short: number; over: number; text: string };
  clearances: ClearanceRow[];
  findings: Finding[];
};
/** A shell of the catalogue, with what a picture of it needs (shell frame, flat x, y). */
export type ShellCard = {
  name: string; note: string;
  length: Shown; width: Shown; shallowest: Shown; deepest: Shown; area: Shown; water: Shown;
  outline: number[];
  facets: { kind: string; depth: number; points: number[] }[];
};
/** What a finger or pointer has taken hold of. */
export type Held = "shell" | "turn" | "equipment" | "corner" | "middle" | "edge" | "whole" | "radius";
/** A drawing under way; figures as ready text. */
export type Drawn = {
  points: number[][]; at: [number, number] | null;
  mode: "straight" | "arc" | "rectangle";
  wants: "first" | "next" | "on-arc" | "arc-end" | "opposite" | "width" | "rim";
  length: string | null; bearing: string | null; run: [number, number] | null;
  turn: string | null; radius: string | null; reason: string | null;
  closes: boolean; ready: boolean;
};
/** A drawing after a step; `done` is the path once it is finished. */
export type DrawStep = { drawn: Drawn | null; findings: Finding[]; done: number[][] | null };
/** A shape being changed. */
export type Shaped = {
  name: string; form: "closed" | "open" | "spots" | "disc" | "none";
  locked: boolean; corners: number;
  picked: "corner" | "edge" | "arc" | null; says: string;
  run: [number, number] | null; word: string;
};
