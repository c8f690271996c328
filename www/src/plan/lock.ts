// The plan locked: no hand and no key moves the shell, what stands on the lot, or a shape. Looking, zooming and
// measuring go on. It is a matter of this device and of no site.
import { isFlag, remembered } from '../state/device.ts';
import { say } from '../state/refresh.ts';
import { english, phrase } from '../words/words.ts';

export const planLocked = remembered('plan-locked', false, isFlag);

const LOCKED = english('The plan is locked: no hand and no key moves anything on it. L or the lock on the plan unlocks it.');

export function toggleLock(): void {
  planLocked.value = !planLocked.value;
  say(planLocked.value ? phrase(LOCKED) : phrase('The plan is unlocked.'));
}

/** Whether a key that would move something is held off; says so where it is. */
export function heldOff(): boolean {
  if (planLocked.value) say(phrase(LOCKED));
  return planLocked.value;
}
