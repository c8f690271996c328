// Spot elevations as text, one "east north elevation" to a line, as they are pasted from a spreadsheet.
import type { Measure, Reading } from '../door/shapes.ts';

export type Spot = [number, number, number];
/** Why a line was not understood; lines count from 1. */
export interface LineFault {
  line: number;
  message: string;
}

const COLUMNS: { name: string; measure: Measure }[] = [
  { name: 'east', measure: 'long-length' },
  { name: 'north', measure: 'long-length' },
  { name: 'elevation', measure: 'elevation' },
];

/** Reads a table of spots; every line that is not understood is told, not only the first. */
export function readSpots(
  text: string,
  read: (text: string, measure: Measure) => Reading,
): { spots: Spot[]; faults: LineFault[] } {
  const spots: Spot[] = [];
  const faults: LineFault[] = [];
  text.split(/\r?\n/).forEach((raw, index) => {
    const row = raw.trim();
    if (row === '' || row.startsWith('#')) return;
    const line = index + 1;
    const words = row.split(/[\s,;]+/).filter(Boolean);
    if (words.length !== COLUMNS.length) {
      faults.push({ line, message: `has ${words.length} figures; it needs three: east, north, elevation.` });
      return;
    }
    const figures: number[] = [];
    COLUMNS.forEach(({ name, measure }, column) => {
      const reading = read(words[column] ?? '', measure);
      if (reading.ok) figures.push(reading.value);
      else faults.push({ line, message: `${name}: ${reading.message} ${reading.remedy}`.trim() });
    });
    const [x, y, z] = figures;
    if (x !== undefined && y !== undefined && z !== undefined) spots.push([x, y, z]);
  });
  return { spots, faults };
}

/** Writes a table of spots in the units in use, which a bare number is read in. */
export function writeSpots(spots: Spot[], show: (value: number, measure: Measure) => string): string {
  return spots
    .map((spot) => COLUMNS.map(({ measure }, column) => bare(show(spot[column] ?? 0, measure))).join(' '))
    .join('\n');
}

/** A figure without its unit. */
const bare = (figure: string): string => figure.replace(/\s*[a-z]+$/, '');
