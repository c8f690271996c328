// Loads the core's one module: compiled once, while it streams in, and instantiated as often as it takes. The
// bindings are fetched as a file of their own rather than bundled, so that after a crash a second copy, with fresh
// memory, can be had by another address.
import glueUrl from '../wasm/batterboard_web.js?url';
import wasmUrl from '../wasm/batterboard_web_bg.wasm?url';

/** What the module exports. */
export type Core = typeof import('../wasm/batterboard_web.js');

let compiled: Promise<WebAssembly.Module> | undefined;
let lives = 0;

/** The compiled module, fetched if need be. Asking fails where it cannot be had, and may be tried again. */
export function compiledCore(): Promise<WebAssembly.Module> {
  compiled ??= compile().catch((error: unknown) => {
    compiled = undefined;
    throw error;
  });
  return compiled;
}

async function compile(): Promise<WebAssembly.Module> {
  const answer = await fetch(wasmUrl);
  if (!answer.ok) throw new Error(`The planner's core could not be loaded (${answer.status}).`);
  // A browser compiles while it streams only what the server calls by its right name.
  const named = answer.headers.get('content-type')?.split(';')[0]?.trim() === 'application/wasm';
  if (named && 'compileStreaming' in WebAssembly) return WebAssembly.compileStreaming(answer);
  return WebAssembly.compile(await answer.arrayBuffer());
}

/** The bindings on a module, in a memory of their own. */
export async function instance(module: WebAssembly.Module, life = 0): Promise<Core> {
  const address = new URL(glueUrl, self.location.href);
  if (life > 0) address.searchParams.set('life', String(life));
  const core = (await import(/* @vite-ignore */ address.href)) as Core;
  await core.default({ module_or_path: module });
  return core;
}

/** A new instance of the core, with fresh memory. */
export async function freshCore(): Promise<Core> {
  const life = lives;
  lives += 1;
  return instance(await compiledCore(), life);
}
