// Whether the browser may clear away what is kept when space runs short. It is asked not to once there is a job worth
// keeping, and once a visit.
import { signal } from '@preact/signals';

/** Whether it promised to keep; `null` before it was asked, or where it does not say. */
export const promised = signal<boolean | null>(null);

let asked = false;

export function askToStay(): void {
  if (asked) return;
  asked = true;
  void (async () => {
    try {
      const { storage } = navigator;
      promised.value = (await storage?.persisted?.()) || ((await storage?.persist?.()) ?? null);
    } catch {
      promised.value = null;
    }
  })();
}
