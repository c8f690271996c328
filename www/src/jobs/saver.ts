// When the open work is written. The first change is written as soon as its frame has been painted, those that follow a
// moment apart; one write at a time, in order. What is to be written is taken when its turn comes, so that the newest is.

/** Writes follow each other no closer than this, milliseconds. */
const GAP = 250;

/** After a write that failed another try is made, milliseconds. */
const RETRY = 15_000;

interface Does<T> {
  /** Takes what there is to write; nothing where nothing has changed. */
  capture: () => T | undefined;
  write: (it: T) => Promise<void>;
  /** What could not be written, and why. */
  failed: (it: T, error: unknown) => void;
}

export class Saver<T> {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private writing: Promise<void> = Promise.resolve();
  private busy = 0;
  private last = Number.NEGATIVE_INFINITY;

  constructor(private readonly does: Does<T>) {}

  /** Something has changed: it is written soon. */
  ask(): void {
    if (this.timer !== undefined || this.busy > 0) return;
    const wait = Math.max(0, this.last + GAP - performance.now());
    this.timer = setTimeout(() => void this.flush(), wait);
  }

  /** Takes what there is now, and writes it in its turn. Resolves once it is written, or has failed. */
  flush(): Promise<void> {
    clearTimeout(this.timer);
    this.timer = undefined;
    const it = this.does.capture();
    if (it === undefined) return this.writing;
    this.busy += 1;
    this.writing = this.writing.then(() => this.one(it));
    return this.writing;
  }

  private async one(it: T): Promise<void> {
    let failed = false;
    try {
      await this.does.write(it);
    } catch (error) {
      failed = true;
      this.does.failed(it, error);
    }
    this.busy -= 1;
    this.last = performance.now();
    if (failed) this.timer ??= setTimeout(() => void this.flush(), RETRY);
    // What has changed meanwhile.
    else if (this.busy === 0) this.ask();
  }
}
