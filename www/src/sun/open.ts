// Whether the sun on the water is being looked at.
import { signal } from '@preact/signals';
import { step } from '../state/store.ts';

export const sunOpen = signal(false);

/** Opens it wherever the page stands. */
export function openSun(): void {
  step.value = 'shell';
  sunOpen.value = true;
}
