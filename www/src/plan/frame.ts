// One painting per frame of the screen, and none when nothing changed.

type Work = () => void;

let work: Work = () => {};
let asked = false;

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
    work();
  });
}
