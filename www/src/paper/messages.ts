// What page and press say to each other.
import type { MadeSheet, SheetWish } from '../wasm/batterboard_web_paper.js';

export type { MadeSheet, SheetWish };

/** A sheet is asked for (the site's text comes along where it changed since the last one), its PDF, or the site in a PDF. */
export type ToPress = { id: number; site?: string; wanted: SheetWish } | { id: number; pdf: true } | { id: number; read: Uint8Array<ArrayBuffer> };

export type FromPress =
  | { id: number; made: MadeSheet; pages: string[] }
  | { id: number; bytes: Uint8Array<ArrayBuffer> }
  | { id: number; site: string }
  | { id: number; refused: string }
  | { id: number; failed: string };
