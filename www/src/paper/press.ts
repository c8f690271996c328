// What is asked of the press, a worker of its own: sheets, files for others, surveys. A worker that stops is ended, and the
// next question has a new one; it holds no document.
import type { Ask, Asks, FileWish, FromPress, SheetWish, WrittenFile } from './messages.ts';

export type Printed = Asks['sheet']['out'];

interface Waiting {
  good: (answer: never) => void;
  bad: (why: unknown) => void;
}

let worker: Worker | undefined;
/** The site's text that the worker was given last. */
let given: string | undefined;
let ids = 0;
const waiting = new Map<number, Waiting>();

function started(): Worker {
  if (worker) return worker;
  given = undefined;
  worker = new Worker(new URL('./press.worker.ts', import.meta.url), { type: 'module', name: 'press' });
  worker.onmessage = ({ data }: MessageEvent<FromPress>) => {
    const asked = waiting.get(data.id);
    waiting.delete(data.id);
    if ('failed' in data) {
      asked?.bad(data.failed);
      end(data.failed);
    } else asked?.good(data.answer as never);
  };
  worker.onerror = (event) => end(event.message);
  return worker;
}

/** Its memory is not to be trusted any more. */
function end(why: unknown): void {
  console.error('the press stopped', why);
  worker?.terminate();
  worker = undefined;
  const left = [...waiting.values()];
  waiting.clear();
  for (const it of left) it.bad(why);
}

/** Asks one thing. */
export function ask<K extends Ask>(what: K, told: Asks[K]['in']): Promise<Asks[K]['out']> {
  ids += 1;
  const id = ids;
  return new Promise((good, bad) => {
    waiting.set(id, { good, bad });
    started().postMessage({ id, ask: what, with: told });
  });
}

/** A site's text, where the worker does not have it already. */
function fresh(site: string): { site?: string } {
  started();
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
