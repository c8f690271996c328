// Drawings of the press set into a page: many in one page share their letters and never each other's names. The press
// escapes all text it writes (`<`, `>`, `&` and `"`), so that its own tags are told from words by their letters alone. Pure.
import { escaped } from './escape.ts';

const HEAD = /^<svg [^>]*viewBox="0 0 ([\d.]+) ([\d.]+)"[^>]*>\s*<title>[^<]*<\/title>\s*<style>([^<]*)<\/style>/;

/** A clip with the group that it clips, the beginning of another group, or the end of one. */
const GROUPS =
  /(?:<clipPath id="c\d+"><rect x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"\/><\/clipPath>)?<g[ >][^>]*>|<\/g>/g;

export interface Area {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The faces of a drawing's letters, as a style sheet. */
export const lettersOf = (svg: string): string => HEAD.exec(svg)?.[3] ?? '';

/** A whole drawing with words for those who do not see it; `name` is its own in the page. */
export function setIn(svg: string, name: string, words: string): string {
  const head = HEAD.exec(svg);
  if (!head) throw new Error('that is no drawing of the press');
  const inner = svg.slice(head[0].length, svg.lastIndexOf('</svg>'));
  return drawing(inner, { x: 0, y: 0, width: Number(head[1]), height: Number(head[2]) }, name, words);
}

/** The section in a homeowner's sheet: the last group that is clipped and lies in no other, where that is not the plan.
    Nothing where it has none. */
export function sectionIn(sheet: string, plan: readonly number[] | undefined): { inner: string; area: Area } | undefined {
  let depth = 0;
  let from = 0;
  let clip: number[] = [];
  let found: { inner: string; area: Area } | undefined;
  for (const tag of sheet.matchAll(GROUPS)) {
    const ends = tag[0] === '</g>';
    if (ends) depth -= 1;
    if (depth === 0 && ends && clip.length > 0) {
      const [x = 0, y = 0, width = 0, height = 0] = clip;
      found = { inner: sheet.slice(from, tag.index), area: { x, y, width, height } };
    }
    if (depth === 0 && !ends) {
      from = tag.index + tag[0].length;
      clip = tag[1] === undefined ? [] : tag.slice(1).map(Number);
    }
    if (!ends) depth += 1;
  }
  if (!found) return undefined;
  const { x, y, width, height } = found.area;
  const isPlan = plan !== undefined && [x, y, width, height].every((it, i) => Math.abs(it - (plan[i] ?? Infinity)) < 0.01);
  return isPlan || width === 0 || height === 0 ? undefined : found;
}

export function drawing(inner: string, { x, y, width, height }: Area, name: string, words: string): string {
  const own = inner
    .replaceAll('<clipPath id="c', `<clipPath id="${name}-c`)
    .replaceAll('clip-path="url(#c', `clip-path="url(#${name}-c`);
  return `<svg viewBox="${x} ${y} ${width} ${height}" role="img" aria-label="${escaped(words)}">${own}</svg>`;
}
