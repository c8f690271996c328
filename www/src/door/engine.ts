// Loads the core and starts it, as often as it takes. The bindings are fetched as a file of their own
// rather than bundled, so that after a crash a second copy, with fresh memory, can be had by another address.
import glueUrl from '../wasm/batterboard_web.js?url';
import wasmUrl from '../wasm/batterboard_web_bg.wasm?url';
import type { Planner } from './shapes.ts';

interface Glue {
  default(options: { module_or_path: WebAssembly.Module }): Promise<unknown>;
  Planner: new () => Planner;
}

let compiled: Promise<WebAssembly.Module> | undefined;
let lives = 0;

async function compile(): Promise<WebAssembly.Module> {
  const answer = await fetch(wasmUrl);
  if (!answer.ok) throw new Error(`The planner's core could not be loaded (${answer.status}).`);
  return WebAssembly.compile(await answer.arrayBuffer());
}

/** A core with memory of its own; gives the class that starts planners in it. */
export async function loadCore(): Promise<new () => Planner> {
  compiled ??= compile();
  const module = await compiled.catch((error: unknown) => {
    compiled = undefined;
    throw error;
  });
  const address = new URL(glueUrl, document.baseURI);
  if (lives > 0) address.searchParams.set('life', String(lives));
  lives += 1;
  const glue = (await import(/* @vite-ignore */ address.href)) as Glue;
  await glue.default({ module_or_path: module });
  return glue.Planner;
}
