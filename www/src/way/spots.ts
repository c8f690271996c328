// The places of the lift: the crane, the truck with the shell, and where the shell is laid down. Each is put on the plan
// by a tap, dragged, moved by the arrow keys or typed; every way ends in one edit.
import type { Finding, Lift, Point } from '../core/types.ts';
import { pickPoint } from '../plan/pick.ts';
import { edit, editOrTell } from '../state/actions.ts';
import { site } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';

export type Spot = 'crane' | 'delivery' | 'set_down';

export const SPOTS: readonly Spot[] = ['crane', 'delivery', 'set_down'];

export const NAMES: Record<Spot, English> = { crane: english('Crane'), delivery: english('Truck with the shell'), set_down: english('Set-down of the shell') };

const ASKED: Record<Spot, English> = {
  crane: english('Middle of the crane: mark where it stands'),
  delivery: english('Middle of the shell on its truck: mark where it is delivered'),
  set_down: english('Set-down: mark where the shell is laid down'),
};

const lift = (): Lift => site.value?.lift ?? {};

/** Where a spot is. */
export function spotAt(of: Lift, spot: Spot): Point | undefined {
  return spot === 'crane' ? of.crane?.at : of[spot];
}

function moved(spot: Spot, at: Point): Lift {
  const now = lift();
  return spot === 'crane' ? { ...now, crane: { heading: 0, ...now.crane, at } } : { ...now, [spot]: at };
}

export const put = {
  /** Moves a spot, or places it. */
  at: (spot: Spot, at: Point): Finding[] => edit({ 'set-lift': moved(spot, at) }),

  /** Lets the hand mark it on the plan. */
  async pick(spot: Spot): Promise<void> {
    const at = await pickPoint(phrase(ASKED[spot]));
    if (at) editOrTell({ 'set-lift': moved(spot, at) }, phrase('It was not placed.'));
  },

  away(spot: Spot): void {
    const { [spot]: _, ...rest } = lift();
    editOrTell({ 'set-lift': Object.keys(rest).length > 0 ? rest : null }, phrase('It was not removed.'));
  },

  heading(heading: number): Finding[] {
    const now = lift();
    return now.crane ? edit({ 'set-lift': { ...now, crane: { ...now.crane, heading } } }) : [];
  },
};
