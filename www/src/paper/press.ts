// What is asked of the press, a worker of its own: sheets, files for others, surveys. A worker that stops is ended, and the
// next question has a new one; it holds no document.
import type { Ask, Asks, FileWish, FromPress, SheetWish, WrittenFile } from './messages.ts';

export type Printed = Asks['sheet']['out'];

interface Waiting {
  good: (answer: never) => void;
  bad: (why: unknown) => void;
}

/** A worker with what it was asked and has not answered yet. */
class Workplace {
  private worker: Worker | undefined;
  private ids = 0;
  private readonly waiting = new Map<number, Waiting>();

  /** `begun` is called whenever there is a new worker, which knows nothing. */
  constructor(private readonly begun: () => void = () => {}) {}

  start(): Worker {
    if (this.worker) return this.worker;
    this.begun();
    const worker = new Worker(new URL('./press.worker.ts', import.meta.url), { type: 'module', name: 'press' });
    worker.onmessage = ({ data }: MessageEvent<FromPress>) => {
      const asked = this.waiting.get(data.id);
      this.waiting.delete(data.id);
      if ('failed' in data) {
        asked?.bad(data.failed);
        this.stopped(data.failed);
      } else asked?.good(data.answer as never);
    };
    worker.onerror = (event) => this.stopped(event.message);
    this.worker = worker;
    return worker;
  }

  /** Its memory is not to be trusted any more. */
  private stopped(why: unknown): void {
    console.error('the press stopped', why);
    this.end(why);
  }

  /** Ends the worker; what it was asked and has not answered fails. */
  end(why: unknown): void {
    this.worker?.terminate();
    this.worker = undefined;
    const left = [...this.waiting.values()];
    this.waiting.clear();
    for (const it of left) it.bad(why);
  }

  ask<K extends Ask>(what: K, told: Asks[K]['in']): Promise<Asks[K]['out']> {
    this.ids += 1;
    const id = this.ids;
    return new Promise((good, bad) => {
      this.waiting.set(id, { good, bad });
      this.start().postMessage({ id, ask: what, with: told });
    });
  }
}

/** The site's text that the press was given last. */
let given: string | undefined;
const main = new Workplace(() => (given = undefined));

/** Asks one thing. */
export const ask = <K extends Ask>(what: K, told: Asks[K]['in']): Promise<Asks[K]['out']> => main.ask(what, told);

/** A press beside the usual one, for a search on two cores; whoever asked for it ends it. */
export const another = (): Pick<Workplace, 'ask' | 'end'> => new Workplace();

/** A site's text, where the worker does not have it already. */
function fresh(site: string): { site?: string } {
  main.start();
  if (given === site) return {};
  given = site;
  return { site };
}

/** The next sheet, while one is being made: the newest wish counts. */
let next: { site: string; wish: SheetWish; good: (it: Printed | undefined) => void; bad: (why: unknown) => void } | undefined;
let printing = false;

/** Makes a sheet of a site's text; nothing where a newer wish came first. */
export function print(site: string, wish: SheetWish): Promise<Printed | undefined> {
  return new Promise((good, bad) => {
    next?.good(undefined);
    next = { site, wish, good, bad };
    follow();
  });
}

function follow(): void {
  const asked = next;
  if (printing || !asked) return;
  next = undefined;
  printing = true;
  ask('sheet', { ...fresh(asked.site), wish: asked.wish })
    .then(asked.good, asked.bad)
    .finally(() => {
      printing = false;
      follow();
    });
}

/** The last sheet as PDF. */
export const pdf = (): Promise<Uint8Array<ArrayBuffer>> => ask('pdf', {});

/** A site as a file for others. */
export const writeFor = (site: string, wish: FileWish): Promise<WrittenFile> => ask('file', { ...fresh(site), wish });

/** The text of the site in a PDF that the planner saved; why there is none is thrown. */
export async function siteIn(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const said = await ask('read', { bytes });
  if ('site' in said) return said.site;
  throw new Error(said.refused);
}
