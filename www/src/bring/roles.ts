// The roles that a thing can take on, in words, and what a picture of them shows.
import { FEATURE_KINDS } from '../core/lists.ts';
import type { MapItem } from '../core/types.ts';
import { plain } from '../fields/Choice.tsx';

export interface RoleChoice {
  value: string;
  text: string;
}

const OUT: RoleChoice = { value: 'leave-out', text: 'Leave out' };
const KINDS: RoleChoice[] = FEATURE_KINDS.map((value) => ({ value, text: plain(value) }));

const OWN: Record<MapItem['form'], RoleChoice[]> = {
  areas: [{ value: 'lot', text: 'The lot' }],
  lines: [
    { value: 'lot', text: 'The lot' },
    { value: 'breakline', text: 'Breakline of the ground' },
  ],
  points: [
    { value: 'spot', text: 'Spot elevation' },
    { value: 'corner', text: 'Corner of the lot, in order' },
    { value: 'monument', text: 'Mark of the nearest corner' },
    { value: 'breakline', text: 'Breakline, in order' },
    { value: 'benchmark', text: 'Benchmark' },
  ],
};

/** What things of a form can be. */
export function rolesOf(form: MapItem['form']): RoleChoice[] {
  return [OUT, ...OWN[form], ...KINDS];
}

/** How the picture draws a role: lots in the drafting line of lots, what stays out faintly. */
export function look(role: string): 'out' | 'lot' | 'ground' | 'thing' {
  if (role === 'leave-out') return 'out';
  if (role === 'lot' || role === 'corner' || role === 'monument') return 'lot';
  return role === 'spot' || role === 'breakline' || role === 'benchmark' ? 'ground' : 'thing';
}
