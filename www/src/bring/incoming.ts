// A map or a list on its way in: its text, and what sort of file a text is.
import { signal } from '@preact/signals';
import { sheet } from '../state/store.ts';

export interface Incoming {
  text: string;
  name: string;
}

/** What is looked at in the sheet; `null` while nothing is chosen yet. */
export const incoming = signal<Incoming | null>(null);

const GEOMETRY =
  /"type"\s*:\s*"(FeatureCollection|Feature|GeometryCollection|(Multi)?(Point|LineString|Polygon))"/;

/** Whether a text is a map or a list of points rather than one of the planner's own files. */
export function isBroughtIn(text: string): boolean {
  const start = text.replace(/^\uFEFF/, '').trimStart();
  if (!start.startsWith('{') && !start.startsWith('[')) return start !== '';
  return !/"format"\s*:\s*"batterboard-/.test(text) && GEOMETRY.test(text);
}

/** Shows a text before anything of it comes in. */
export function lookAt(text: string, name: string): void {
  incoming.value = { text, name };
  sheet.value = 'bring-in';
}

/** Opens the sheet where a file is chosen or a text pasted. */
export function chooseIncoming(): void {
  incoming.value = null;
  sheet.value = 'bring-in';
}
