// What page and press say to each other.
import type { MapBrought, MapReading, MapSettings } from '../core/types.ts';
import type { AccessFigures, CureCards, EdgeFigures, FileWish, FitAim, FitCard, FitWish, FoundSoFar, MadeSheet, ShadeFigures, SheetWish, ShownYard, SmallSite, SourceList, SpaceRecord, SpaceSun, SunFigures, ViewWish, WrittenFile, YardView } from '../wasm/batterboard_web_paper.js';

export type { SpaceBody, SpaceLabel, SpaceMark } from '../wasm/batterboard_web_paper.js';
export type { AccessFigures, CureCards, EdgeFigures, FileWish, FitAim, FitCard, FitWish, FoundSoFar, MadeSheet, ShadeFigures, SheetWish, ShownYard, SmallSite, SourceList, SpaceRecord, SpaceSun, SunFigures, ViewWish, WrittenFile, YardView };

/** A site's text, where it changed since the last one was given. */
interface OfSite {
  site?: string | undefined;
}

/** What is asked of the press, and what it answers. */
export interface Asks {
  sheet: { in: OfSite & { wish: SheetWish }; out: { made: MadeSheet; pages: string[] } };
  /** The way in and the crane of a site's text. */
  access: { in: { text: string }; out: AccessFigures };
  /** The edge of clear ground of a site's text, held against the cut. */
  edge: { in: { text: string }; out: EdgeFigures };
  pdf: { in: object; out: Uint8Array<ArrayBuffer> };
  file: { in: OfSite & { wish: FileWish }; out: WrittenFile };
  /** The site in the PDF of a sheet, or why there is none. */
  read: { in: { bytes: Uint8Array<ArrayBuffer> }; out: { site: string } | { refused: string } };
  /** Begins a search for the places where shells fit. */
  find: { in: { site: string; wish: FitWish }; out: SmallSite };
  /** Goes on with it. */
  'find-on': { in: object; out: FoundSoFar };
  /** What would free a shell that stands too close. */
  cures: { in: { site: string }; out: CureCards };
  /** The largest rectangle of water of a proportion, in words; nothing where none fits. */
  largest: { in: { site: string; proportion: number }; out: string | null };
  /** The sun on the water of a site's text on a day as it was typed, or why that is no day. */
  sun: { in: { site: string; date: string; offset: string }; out: { figures: SunFigures } | { refused: string } };
  /** The shade so many minutes after midnight of such a day; nothing where there is no place or no shell. */
  shade: { in: { site: string; date: string; offset: string; minutes: number }; out: ShadeFigures | null };
  /** A picture of the yard for the homeowner, and what goes beside it; or why there is none. */
  yard: { in: OfSite & { wish: ViewWish }; out: { view: YardView; svg: string } | { refused: string } };
  /** The section along the pool of a yard that is shown, so many millimeters wide; nothing where nothing is cut. */
  'yard-section': { in: { yard: ShownYard; width: number }; out: string | null };
  /** The sun on the water of a yard that is shown. */
  'yard-sun': { in: { yard: ShownYard; date: string; offset: string }; out: { figures: SunFigures } | { refused: string } };
  /** Its shade so many minutes after midnight. */
  'yard-shade': { in: { yard: ShownYard; date: string; offset: string; minutes: number }; out: ShadeFigures | null };
  /** The job in three dimensions: what there is to see, the corners of its bodies and the points of its lines. */
  space: { in: { site: string }; out: { record: SpaceRecord; corners: Float32Array<ArrayBuffer>[]; points: Float32Array<ArrayBuffer>[] } };
  /** The sun over a site's text on a day as it was typed; nothing where the site has no place; or why that is no day. */
  'space-sun': { in: { site: string; date: string; offset: string }; out: { path: SpaceSun | null } | { refused: string } };
  /** Every figure that the work rests on, in feet or in meters. */
  sources: { in: { metres: boolean }; out: SourceList };
  survey: { in: { text: string; onto: string; settings: MapSettings | null }; out: MapReading };
  bring: { in: { text: string; onto: string; settings: MapSettings; roles: string[] }; out: MapBrought };
}

export type Ask = keyof Asks;
export type ToPress = { [K in Ask]: { id: number; ask: K; with: Asks[K]['in'] } }[Ask];
export type FromPress = { id: number; answer: Asks[Ask]['out'] } | { id: number; failed: string };
