// Points as lines of text: east and north, and a third figure where an arc follows. A line that nobody
// changed keeps the exact point it stood for.
import type { Reading, Vertex } from '../../core/types.ts';
import { heard, phrase } from '../../words/words.ts';

export interface Lines {
  points: Vertex[];
  /** What could not be read, each with the number of its line. */
  faults: string[];
}

type Show = (metres: number) => string;
type Read = (text: string) => Reading;

/** One point as a line. */
export function lineOf([east, north, bulge]: Vertex, show: Show): string {
  const place = `${show(east)}, ${show(north)}`;
  return bulge ? `${place}, ${bulge}` : place;
}

/** Reads lines; `before` are the points whose unchanged lines stand for them. */
export function pointsOf(text: string, before: readonly Vertex[], show: Show, read: Read): Lines {
  const known = new Map(before.map((vertex) => [lineOf(vertex, show), vertex]));
  const points: Vertex[] = [];
  const faults: string[] = [];
  for (const [index, raw] of text.split('\n').entries()) {
    const line = raw.trim();
    if (line === '') continue;
    const same = known.get(line);
    if (same) {
      points.push(same);
      continue;
    }
    const point = pointOf(line, read);
    if (typeof point === 'string') faults.push(`${phrase('Line {number}:', { number: index + 1 })} ${point}`);
    else points.push(point);
  }
  return { points, faults };
}

function pointOf(line: string, read: Read): Vertex | string {
  const cells = /[,;\t]/.test(line) ? line.split(/[,;\t]/).map((cell) => cell.trim()) : line.split(/\s+/);
  if (cells.length < 2 || cells.length > 3) return phrase('give east, then north, with a comma between them.');
  const figures = cells.slice(0, 2).map(read);
  for (const figure of figures) if (!figure.ok) return `${heard(figure.message)} ${heard(figure.remedy)}`.trim();
  const [east, north] = figures.map((figure) => (figure.ok ? figure.value : 0));
  if (cells.length === 2) return [east ?? 0, north ?? 0];
  const bulge = Number(cells[2]);
  return Number.isFinite(bulge) ? [east ?? 0, north ?? 0, bulge] : phrase('the third figure, of an arc, is not a number.');
}
