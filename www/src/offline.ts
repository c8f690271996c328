// Keeps the whole page on the device after the first visit, and says when a newer one is there.
import { registerSW } from 'virtual:pwa-register';
import { phrase } from './words/words.ts';
import { say } from './state/actions.ts';
import { offlineReady } from './state/store.ts';

export function keepOffline(): void {
  if (!('serviceWorker' in navigator)) return;
  void navigator.serviceWorker.ready.then(() => (offlineReady.value = true));
  registerSW({
    onNeedRefresh: () => say(phrase('A newer planner is ready: close every tab of it and open it again.')),
    onRegisterError: (error) => console.warn('the page cannot be kept on this device', error),
  });
}
