// One job is worked on in one tab. Who works on it holds a lock of the browser's; others wait for it, and may ask for it.
// Where the browser has no locks every tab works, and what tells them apart is the revision when they write.

/** What tabs say to each other. */
export type Said =
  | { kind: 'saved'; job: string; revision: number }
  | { kind: 'give'; job: string; to: string }
  | { kind: 'list' };

/** So long a tab that is asked for a job may take to hand it over, milliseconds; then it is taken. */
const PATIENCE = 1500;
/** Who waits as well stands back so long for the one that asked, milliseconds. */
const STAND_BACK = 1000;

const PREFIX = 'batterboard job ';

export interface Told {
  /** The job is this tab's to work on, after it was another's. */
  granted: () => void;
  /** Another tab wants it: what is not written yet is written now. */
  giving: () => Promise<void>;
  /** Another tab has it now. */
  lost: () => void;
}

/** What a tab needs of the browser to be one of several. */
export interface Neighbors {
  locks: Pick<LockManager, 'request'> | undefined;
  say: (it: Said) => void;
}

/** This tab's claim on one job. */
export class Claim {
  private letGo: (() => void) | undefined;
  private waiting: AbortController | undefined;
  private ended = false;

  constructor(
    readonly job: string,
    private readonly me: string,
    private readonly told: Told,
    private readonly neighbors: Neighbors,
  ) {}

  /** Claims the job. True where it is this tab's; otherwise it comes to this tab when the other leaves. */
  async begin(): Promise<boolean> {
    const { locks } = this.neighbors;
    if (!locks) return true;
    const mine = await new Promise<boolean>((answer) => {
      locks
        .request(PREFIX + this.job, { ifAvailable: true }, (lock) => {
          answer(lock !== null);
          return lock === null ? undefined : this.hold();
        })
        .catch(() => this.stolen());
    });
    if (!mine) this.wait();
    return mine;
  }

  /** Has the tab that works on the job hand it over. */
  take(): void {
    const { locks, say } = this.neighbors;
    if (!locks || this.ended || this.letGo) return;
    if (!this.waiting) this.wait();
    say({ kind: 'give', job: this.job, to: this.me });
    setTimeout(() => {
      // It does not answer: it is asleep, or hangs.
      if (!this.letGo && !this.ended) this.request({ steal: true });
    }, PATIENCE);
  }

  /** Hears what another tab says. */
  async hear(it: Said): Promise<void> {
    if (it.kind !== 'give' || it.job !== this.job || it.to === this.me || this.ended) return;
    if (this.letGo) {
      await this.told.giving();
      this.release();
      this.told.lost();
      setTimeout(() => !this.ended && !this.letGo && this.wait(), STAND_BACK);
    } else if (this.waiting) {
      this.waiting.abort();
      this.waiting = undefined;
      setTimeout(() => !this.ended && !this.letGo && this.wait(), STAND_BACK);
    }
  }

  /** Gives the job up: another is opened here. */
  end(): void {
    this.ended = true;
    this.waiting?.abort();
    this.release();
  }

  private release(): void {
    this.letGo?.();
    this.letGo = undefined;
  }

  private hold(): Promise<void> {
    return new Promise((done) => {
      this.letGo = done;
      if (this.ended) this.release();
    });
  }

  private wait(): void {
    this.waiting?.abort();
    this.waiting = new AbortController();
    this.request({ signal: this.waiting.signal });
  }

  private request(how: LockOptions): void {
    this.neighbors.locks
      ?.request(PREFIX + this.job, how, () => {
        if (this.ended) return undefined;
        const waiting = this.waiting;
        this.waiting = undefined;
        if (how.steal) waiting?.abort();
        const holding = this.hold();
        this.told.granted();
        return holding;
      })
      .catch((error: unknown) => {
        const givenUp = how.signal?.aborted ?? false;
        if (!givenUp) this.stolen(error);
      });
  }

  private stolen(_why?: unknown): void {
    if (this.ended || !this.letGo) return;
    this.letGo = undefined;
    this.told.lost();
    this.wait();
  }
}

/** The jobs that some tab works on; none where the browser cannot say. */
export async function jobsAtWork(): Promise<Set<string>> {
  const held = (await navigator.locks?.query())?.held ?? [];
  const names = held.flatMap(({ name }) => (name?.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : []));
  return new Set(names);
}
