// A large invented site on the ground of the hillside: 300 features, 2,000 spots, 100 rules. The same each time.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const DEMO = join(import.meta.dirname, '../../demo-sites/sloping-hillside.json');
const FEATURES = 300;
const SPOTS = { across: 45, most: 2000 };
const RULES = 100;
/** Room round the shell that is left alone, meters. */
const CLEAR = 10;

const SMALL = ['tree', 'septic-tank', 'fence', 'buried-line', 'outbuilding'];
const FROM = ['waters-edge', 'rim', 'deck-edge', 'equipment', 'dig'];
const KINDS = [...SMALL, 'house', 'well', 'overhead-line', 'easement', 'septic-field', 'watercourse', 'street-edge'];
const LINES = ['front', 'side', 'rear', 'street-side'];
const PARTS = ['tree-trunk', 'door', 'gate'];
const TARGETS = [
  ...KINDS.map((kind) => ({ feature: { kind } })),
  ...LINES.map((kind) => ({ 'lot-line': { kind } })),
  { 'lot-line': {} },
  ...PARTS.map((part) => ({ part: { part } })),
];

/** Numbers from 0 to 1 that are the same each time (a linear congruence). */
function chance(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 1_664_525 + 1_013_904_223) % 2 ** 32) / 2 ** 32;
}

type Spot = [number, number, number];

/** The text of the site file. */
export function largeSite(): string {
  const site = JSON.parse(readFileSync(DEMO, 'utf8'));
  const next = chance(4);
  const known: Spot[] = site.ground.spots.spots;
  const bounds = (at: 0 | 1 | 2) => [Math.min(...known.map((it) => it[at])), Math.max(...known.map((it) => it[at]))] as const;
  const [[left, right], [low, high], [down, up]] = [bounds(0), bounds(1), bounds(2)];
  const x = () => left + (right - left) * next();
  const y = () => low + (high - low) * next();

  const shapeOf = (kind: string, [x, y]: [number, number]) => {
    if (kind === 'tree' || kind === 'septic-tank') return { disc: { at: [x, y], radius: 0.3 } };
    if (kind === 'outbuilding') return { area: [[x, y], [x + 2, y], [x + 2, y + 2], [x, y + 2]] };
    return { track: [[x, y], [x + 3, y + 1], [x + 5, y + 4]] };
  };
  const [px, py] = site.placement.at;
  while (site.features.length < FEATURES) {
    const at: [number, number] = [x(), y()];
    if (Math.hypot(at[0] - px, at[1] - py) < CLEAR) continue;
    const kind = SMALL[Math.floor(next() * SMALL.length)] ?? 'tree';
    const number = site.features.length;
    site.features.push({ id: `x${number}`, kind, name: `${kind} ${number}`, shape: shapeOf(kind, at) });
  }

  const { across, most } = SPOTS;
  const elevation = (x: number) => down + ((up - down) * (x - left)) / (right - left) + 0.1 * (next() - 0.5);
  const spots = Array.from({ length: across * across }, (_, index): Spot => {
    const at = (cell: number, from: number, to: number) => from + ((to - from) * (cell + 0.8 * next())) / across;
    const x = at(Math.floor(index / across), left, right);
    return [x, at(index % across, low, high), elevation(x)];
  });
  site.ground = { spots: { spots: spots.slice(0, most), breaklines: [] } };

  site.rules = FROM.flatMap((from) => TARGETS.map((to) => ({ from, to })))
    .slice(0, RULES)
    .map((it, index) => ({ ...it, name: `Rule ${index + 1}`, distance: next() < 0.5 ? 1.5 : 3, source: 'Invented' }));
  site.name = 'A large site';
  return JSON.stringify(site);
}
