// The open site as text, made once for each change of it.
import { ask } from '../core/planner.ts';
import { ledger } from './store.ts';

let made: { revision: number; text: string } | undefined;

/** The site file without its picture's data; empty where there is no planner. */
export function bareText(): string {
  const revision = ledger.value?.revision ?? -1;
  if (made?.revision !== revision || made.text === '') made = { revision, text: ask((p) => p.save_bare(), '') };
  return made.text;
}

/** Another planner counts its changes anew. */
export function forgetText(): void {
  made = undefined;
}
