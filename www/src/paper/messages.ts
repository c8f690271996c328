// What page and press say to each other.
import type { MapBrought, MapReading, MapSettings } from '../core/types.ts';
import type { FileWish, MadeSheet, SheetWish, WrittenFile } from '../wasm/batterboard_web_paper.js';

export type { FileWish, MadeSheet, SheetWish, WrittenFile };

/** A site's text, where it changed since the last one was given. */
interface OfSite {
  site?: string | undefined;
}

/** What is asked of the press, and what it answers. */
export interface Asks {
  sheet: { in: OfSite & { wish: SheetWish }; out: { made: MadeSheet; pages: string[] } };
  pdf: { in: object; out: Uint8Array<ArrayBuffer> };
  file: { in: OfSite & { wish: FileWish }; out: WrittenFile };
  /** The site in the PDF of a sheet, or why there is none. */
  read: { in: { bytes: Uint8Array<ArrayBuffer> }; out: { site: string } | { refused: string } };
  survey: { in: { text: string; onto: string; settings: MapSettings | null }; out: MapReading };
  bring: { in: { text: string; onto: string; settings: MapSettings; roles: string[] }; out: MapBrought };
}

export type Ask = keyof Asks;
export type ToPress = { [K in Ask]: { id: number; ask: K; with: Asks[K]['in'] } }[Ask];
export type FromPress = { id: number; answer: Asks[Ask]['out'] } | { id: number; failed: string };
