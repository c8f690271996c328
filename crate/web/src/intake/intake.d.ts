/** A course as a site file keeps it: metres, radians clockwise from north. */
export type DeedCourse = {
  kind: string;
  shape:
    | { line: { bearing: number; distance: number } }
    | {
        curve: {
          chord_bearing: number; chord: number; radius: number;
          turn: "left" | "right"; long_way?: boolean;
        };
      };
};
/** A stretch of a deed, characters counted from 0; a course by its index, an area in m2. */
export type DeedPiece = {
  from: number; to: number;
  understood: "beginning" | "connective" | "unread" | { course: number } | { area: number };
  message: string; remedy: string;
};
/** A deed as it was read; nothing of it is in the site yet. */
export type DeedReading = {
  pieces: DeedPiece[];
  courses: DeedCourse[];
  stated_area: number | null;
  figures: LotClosing | null;
  /** The kinds that follow from the street named in the text, one a course. */
  kinds: string[] | null;
  streets: { course: number; name: string }[];
  /** Whether the courses of the lot run as these do. */
  in_use: boolean;
  findings: Finding[];
};
/** A stretch of a walk, characters counted from 0; a wall by its index. */
export type WalkPiece = {
  from: number; to: number;
  taken: "turn" | "between" | "unread" | { wall: number };
  message: string; remedy: string;
};
/** A walk as it was read; `path` is its corners, `[x, y]` or `[x, y, bulge]`. */
export type WalkReading = {
  pieces: WalkPiece[];
  path: number[][]; closed: boolean; walls: number;
  misses: string | null; round: string | null; area: string | null; squared: string | null;
  findings: Finding[];
};
/** A corner of the lot: the course that starts there, and its elevation (metres) where the ground tells it. */
export type LotCorner = { course: number; name: string; at: [number, number]; elevation: number | null };
/** Ground made from figures, or why not. */
export type GroundMade = { ground: object | null; words: string; findings: Finding[] };
/** Spots read from a table, metres; findings are placed at "line 3". */
export type SpotReading = { spots: [number, number, number][]; findings: Finding[] };
/** Breaklines read from a table, metres; findings are placed at "line 3". */
export type BreaklineReading = { lines: [number, number, number][][]; findings: Finding[] };
/** How a map or a list is meant. */
export type MapSettings = {
  frame: "degrees" | "metres" | "feet" | "survey-feet";
  order: "north-first" | "east-first";
  heights: "metres" | "feet" | "survey-feet";
  columns: { point: boolean; elevation: boolean } | null;
  lot: number | null; ring: number | null;
  fresh: boolean; keep_spots: boolean; spots_of_all: boolean;
};
/** One thing that was found; lines are x, y, x, y ... in site metres. */
export type MapItem = {
  place: string; name: string; group: string; words: string;
  form: "points" | "lines" | "areas";
  size: Shown | null; rings: string[]; proposed: string; lines: number[][]; usable: boolean;
};
/** What is in a map or a list; `form` is null when nothing of it can be used. */
export type MapReading = {
  form: "geo-json" | "points" | null;
  settings: MapSettings | null;
  items: MapItem[];
  findings: Finding[];
};
/** What would come in, and the edit that does it. */
export type MapBrought = { told: string[]; findings: Finding[]; command: object | null };
/** What of a site is written as a map. */
export type MapParts = { lot: boolean; features: boolean; shell: boolean; dig: boolean; ground: boolean };
/** What of a site is written as a list, and how. */
export type ListChoice = {
  frame: MapSettings["frame"]; order: MapSettings["order"];
  corners: boolean; features: boolean; ground: boolean; shell: boolean;
};
/** A text, or why there is none. */
export type Written = { text: string | null; findings: Finding[] };
/** A place on the globe as it was understood, or what to type. */
export type PlaceReading = {
  origin: { longitude: number; latitude: number } | null; text: string; message: string;
};
/** The figures of a rectangular shell beside its stations, metres and kilograms. */
export type RectangleFigures = {
  name: string; length: number; width: number; corner: number; coping: number; waterline: number;
  thickness: number; draft: number; cove: number; weight: number | null;
};
/** The shell that a table of stations makes; findings are placed at "/3" for the third line. */
export type ShellMade = { shell: object | null; findings: Finding[] };
