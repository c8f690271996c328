// An elevation asked for on the plan, after a point was picked there: the bar over the plan takes it.
import { signal } from '@preact/signals';

export interface AskedHeight {
  prompt: string;
  done: (elevation: number | null) => void;
}

export const askedHeight = signal<AskedHeight | null>(null);

/** An elevation in meters; nothing when the user gives up. */
export function askHeight(prompt: string): Promise<number | null> {
  askedHeight.value?.done(null);
  return new Promise((resolve) => {
    const done = (elevation: number | null): void => {
      askedHeight.value = null;
      resolve(elevation);
    };
    askedHeight.value = { prompt, done };
  });
}
