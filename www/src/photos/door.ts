// The door to the photographs: what pins them to the plan is fetched once there are any.
import { effect, signal } from '@preact/signals';
import { site } from '../state/store.ts';

/** The photograph that was taken in hand last, and the one that is looked at, by their ids. */
export const chosenPhotograph = signal<string | null>(null);
export const openedPhotograph = signal<string | null>(null);

/** Pins the photographs of whatever site is open to the plan; gives what takes them away. */
export function pinPhotographs(): () => void {
  let away: (() => void) | undefined;
  let over = false;
  const stop = effect(() => {
    if (away || !site.value?.photographs?.length) return;
    away = () => {};
    import('./pins.ts').then(
      (it) => {
        if (!over) away = it.overPlan();
      },
      // Once more with the next change of the site.
      () => (away = undefined),
    );
  });
  return () => {
    over = true;
    stop();
    away?.();
  };
}
