// The colors of what there is to see, of one family with the plan's own inks.
import type { SpaceBody, SpaceMark } from '../paper/messages.ts';

/** The sky, and what lies behind everything, where no theme of the page says (`--sky`). */
export const SKY = '#e3e9e8';

/** Earth where it was cut, by the hole or by the section. */
export const EARTH = '#b18a5c';

const BODIES: Record<string, string> = {
  ground: '#d3d2ac',
  'soil under the hole': EARTH,
  dig: '#cfc094',
  'cut for deck and banks': '#d0caa2',
  base: '#9f9c92',
  backfill: '#bcb6a4',
  fill: '#c6ac7c',
  shell: '#e8f0ee',
  water: '#3f9cb8',
  collar: '#a3a096',
  deck: '#d3cec0',
  'deck bed': '#aaa494',
  steps: '#c6c1b2',
  'spoil pile': '#b7935f',
  house: '#efe6d0',
  outbuilding: '#e6dcc4',
  wall: '#bdb7a8',
  fence: '#9a8b6e',
  paving: '#e9e4d7',
  'tree crown': '#84a56f',
  'tree trunk': '#7a5633',
  'overhead line': '#3b4044',
  'buried line': '#444444',
  'tank, field or well': '#b6c29a',
  equipment: '#c3ccd0',
  'open water': '#8fbdd6',
  'other feature': '#b9b6ae',
};

/** The APWA uniform color code, as the plan has it. */
const BURIED: Record<string, string> = {
  electric: '#d0021b',
  gas: '#d9b400',
  communication: '#e8730c',
  water: '#1667c5',
  reclaimed: '#7a2fa0',
  sewer: '#1d8a3a',
};

const MARKS: Record<string, string> = {
  'lot line': '#1c2428',
  contour: '#9b7b4a',
  'index contour': '#6f5222',
  easement: '#6b5780',
  'street edge': '#3c3c3c',
  'rim, marked': '#0d4c60',
  'edge of the dig': '#8a4d12',
  'edge of the deck, marked': '#5d5a52',
  'end of a bank': '#7a4310',
};

export const colorOf = (body: Pick<SpaceBody, 'matter' | 'utility'>): string =>
  (body.utility && BURIED[body.utility]) || BODIES[body.matter] || '#b9b6ae';

export const markColor = (mark: Pick<SpaceMark, 'kind'>): string => MARKS[mark.kind] ?? '#1c2428';

/** What light passes, and how much of it stays. */
export const seeThrough = (matter: string): number => (matter === 'water' ? 0.72 : 1);

/** What has edges that are drawn: what was built, not what grew or lies. */
export const hasEdges = (matter: string): boolean =>
  ['shell', 'deck', 'steps', 'collar', 'house', 'outbuilding', 'wall', 'equipment'].includes(matter);
