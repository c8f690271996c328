// Drawings of the press set into a page: many in one page share their letters and never each other's names. The press
// escapes all text it writes (`<`, `>`, `&` and `"`), so that its own tags are told from words by their letters alone. Pure.
import { escaped } from './escape.ts';

const HEAD = /^<svg [^>]*viewBox="0 0 ([\d.]+) ([\d.]+)"[^>]*>\s*<title>[^<]*<\/title>\s*<style>([^<]*)<\/style>/;

/** The faces of a drawing's letters, as a style sheet. */
export const lettersOf = (svg: string): string => HEAD.exec(svg)?.[3] ?? '';

/** A drawing with words for those who do not see it; `name` is its own in the page. */
export function setIn(svg: string, name: string, words: string): string {
  const head = HEAD.exec(svg);
  if (!head) throw new Error('that is no drawing of the press');
  const own = svg
    .slice(head[0].length, svg.lastIndexOf('</svg>'))
    .replaceAll('<clipPath id="c', `<clipPath id="${name}-c`)
    .replaceAll('clip-path="url(#c', `clip-path="url(#${name}-c`);
  return `<svg viewBox="0 0 ${head[1]} ${head[2]}" role="img" aria-label="${escaped(words)}">${own}</svg>`;
}
