// The one living desk of the estimate, loaded once the plan is on the screen. It holds nothing of its own: when a
// call throws its memory is not to be trusted any more, and a new one is started and given the planner's site.
import glueUrl from '../wasm/batterboard_estimate.js?url';
import wasmUrl from '../wasm/batterboard_estimate_bg.wasm?url';
import { crashCounter, moduleOf } from './engine.ts';
import type { Desk } from './tally.ts';

const load = moduleOf<{ Desk: new () => Desk }>(glueUrl, wasmUrl);
const crashes = crashCounter();

/** How it stands with the desk: empty and ready for a site, or not to be had. */
export type Arrival = 'ready' | 'failed';

let desk: Desk | undefined;
let tell: (how: Arrival) => void = () => {};

/** Loads the module and starts a desk; `told` hears how that went, now and after each crash. */
export function startDesk(told: (how: Arrival) => void): void {
  tell = told;
  crashes.forget();
  void start();
}

/** Runs one call on the living desk; `otherwise` when there is none or it dies of it. */
export function askDesk<T>(call: (desk: Desk) => T, otherwise: T): T {
  if (!desk) return otherwise;
  try {
    return call(desk);
  } catch (error) {
    console.error('the estimate stopped', error);
    desk = undefined;
    if (crashes.tooMany()) tell('failed');
    else void start();
    return otherwise;
  }
}

async function start(): Promise<void> {
  try {
    desk = new (await load()).Desk();
    tell('ready');
  } catch (error) {
    console.error('the estimate could not be started', error);
    desk = undefined;
    tell('failed');
  }
}
