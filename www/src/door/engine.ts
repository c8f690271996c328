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

/** A module of free functions, loaded when first wanted and kept. It holds no document, so nothing is lost with
    it: a call that throws means it has crashed, and the next one finds a fresh instance. Asking fails where it
    cannot be had, and may be tried again. */
export function livingModule<Exports extends object>(
  called: string,
  glueUrl: string,
  wasmUrl: string,
): () => Promise<Exports> {
  const load = moduleOf<Exports>(glueUrl, wasmUrl);
  let living: Promise<Exports> | undefined;
  const forget = (gone: Promise<Exports>): void => {
    if (living === gone) living = undefined;
  };
  return () => {
    const mine = (living ??= load().then((exports) => watched(called, exports, () => forget(mine))));
    mine.catch(() => forget(mine));
    return mine;
  };
}

/** The same functions, which tell when one of them throws. */
function watched<Exports extends object>(called: string, exports: Exports, crashed: () => void): Exports {
  return new Proxy(exports, {
    get(target, name) {
      const member: unknown = Reflect.get(target, name);
      if (typeof member !== 'function') return member;
      return (...args: unknown[]): unknown => {
        try {
          return member(...args);
        } catch (error) {
          console.error(`the ${called} stopped`, error);
          crashed();
          throw error;
        }
      };
    },
  });
}

/** So many crashes within so many milliseconds, and another start is no use. */
const MOST_CRASHES = 3;
const WITHIN_MS = 20_000;

/** Counts the crashes of a module that is started again after each. */
export function crashCounter(): { tooMany(): boolean; forget(): void } {
  let crashes: number[] = [];
  return {
    tooMany() {
      const now = performance.now();
      crashes = [...crashes.filter((at) => now - at < WITHIN_MS), now];
      return crashes.length >= MOST_CRASHES;
    },
    forget() {
      crashes = [];
    },
  };
}
