// Loads the core's modules and starts them, as often as it takes. The bindings are fetched as a file of their
// own rather than bundled, so that after a crash a second copy, with fresh memory, can be had by another address.

interface Glue {
  default(options: { module_or_path: WebAssembly.Module }): Promise<unknown>;
}

/** One of the core's modules: each call gives what it exports, in a memory of its own. */
export function moduleOf<Exports>(glueUrl: string, wasmUrl: string): () => Promise<Exports> {
  let compiled: Promise<WebAssembly.Module> | undefined;
  let lives = 0;

  async function compile(): Promise<WebAssembly.Module> {
    const answer = await fetch(wasmUrl);
    if (!answer.ok) throw new Error(`A part of the planner's core could not be loaded (${answer.status}).`);
    return WebAssembly.compile(await answer.arrayBuffer());
  }

  return async () => {
    compiled ??= compile();
    const module = await compiled.catch((error: unknown) => {
      compiled = undefined;
      throw error;
    });
    const address = new URL(glueUrl, document.baseURI);
    if (lives > 0) address.searchParams.set('life', String(lives));
    lives += 1;
    const glue = (await import(/* @vite-ignore */ address.href)) as Glue & Exports;
    await glue.default({ module_or_path: module });
    return glue;
  };
}
