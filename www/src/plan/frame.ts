// One painting per frame of the screen, and none when nothing changed.

type Work = () => void;

let work: Work = () => {};
let asked = false;
let watcher: ((milliseconds: number) => void) | null = null;

/** What a frame does. */
export function eachFrame(does: Work): void {
  work = does;
}

/** Has the next frame of the screen painted. */
export function askForFrame(): void {
  if (asked) return;
  asked = true;
  requestAnimationFrame(() => {
    asked = false;
    const start = performance.now();
    work();
    // What a frame changed on the page is rendered in microtasks queued before this one.
    if (watcher) queueMicrotask(() => watcher?.(performance.now() - start));
  });
}

/** Tells somebody how long each frame took, page and plan, milliseconds. */
export function watchFrames(by: (milliseconds: number) => void): void {
  watcher = by;
}
