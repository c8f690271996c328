// The roles that a thing can take on, in words, and what a picture of them shows.
import { FEATURE_KINDS } from '../core/lists.ts';
import type { MapItem } from '../core/types.ts';
import { plain } from '../fields/Choice.tsx';
import { english, phrased, type English } from '../words/words.ts';

export interface RoleChoice {
  value: string;
  text: string;
}

type OwnRole = { value: string; text: English };

const OUT: OwnRole = { value: 'leave-out', text: english('Leave out') };
const kinds = (): RoleChoice[] => FEATURE_KINDS.map((value) => ({ value, text: plain(value) }));

const OWN: Record<MapItem['form'], OwnRole[]> = {
  areas: [{ value: 'lot', text: english('The lot') }],
  lines: [
    { value: 'lot', text: english('The lot') },
    { value: 'breakline', text: english('Breakline of the ground') },
  ],
  points: [
    { value: 'spot', text: english('Spot elevation') },
    { value: 'corner', text: english('Corner of the lot, in order') },
    { value: 'monument', text: english('Mark of the nearest corner') },
    { value: 'breakline', text: english('Breakline, in order') },
    { value: 'benchmark', text: english('Benchmark') },
  ],
};

/** What things of a form can be. */
export function rolesOf(form: MapItem['form']): RoleChoice[] {
  return [...phrased([OUT, ...OWN[form]]), ...kinds()];
}

/** How the picture draws a role: lots in the drafting line of lots, what stays out faintly. */
export function look(role: string): 'out' | 'lot' | 'ground' | 'thing' {
  if (role === 'leave-out') return 'out';
  if (role === 'lot' || role === 'corner' || role === 'monument') return 'lot';
  return role === 'spot' || role === 'breakline' || role === 'benchmark' ? 'ground' : 'thing';
}
