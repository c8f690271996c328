// Sheets asked of a worker: the newest wish counts, one that was overtaken is never answered.
import type { FromPress, MadeSheet, ToPress, SheetWish } from './messages.ts';

export interface Printed {
  made: MadeSheet;
  /** Every page as SVG. */
  pages: string[];
}

type Waiting = { id: number; good: (said: FromPress) => void; bad: (why: unknown) => void };

let worker: Worker | undefined;
let given: string | undefined;
let ids = 0;
let waiting: Waiting | undefined;
let next: { site: string; wanted: SheetWish; good: (it: Printed | undefined) => void; bad: (why: unknown) => void } | undefined;

function started(): Worker {
  if (worker) return worker;
  given = undefined;
  worker = new Worker(new URL('./press.worker.ts', import.meta.url), { type: 'module', name: 'sheets' });
  worker.onmessage = ({ data }: MessageEvent<FromPress>) => {
    if (data.id !== waiting?.id) return;
    const asked = waiting;
    waiting = undefined;
    if ('failed' in data) {
      end();
      asked.bad(data.failed);
    } else asked.good(data);
    follow();
  };
  worker.onerror = (event) => {
    const asked = waiting;
    waiting = undefined;
    end();
    asked?.bad(event.message);
    follow();
  };
  return worker;
}

/** Its memory is not to be trusted after a crash: the next wish has a new one. */
function end(): void {
  worker?.terminate();
  worker = undefined;
}

function ask(what: (id: number) => ToPress): Promise<FromPress> {
  ids += 1;
  const id = ids;
  return new Promise((good, bad) => {
    waiting = { id, good, bad };
    started().postMessage(what(id));
  });
}

/** Makes a sheet of a site's text; nothing where a newer wish came first. */
export function print(site: string, wanted: SheetWish): Promise<Printed | undefined> {
  return new Promise((good, bad) => {
    next?.good(undefined);
    next = { site, wanted, good, bad };
    follow();
  });
}

function follow(): void {
  const asked = next;
  if (waiting || !asked) return;
  next = undefined;
  started();
  const fresh = given !== asked.site;
  given = asked.site;
  ask((id) => ({ id, wanted: asked.wanted, ...(fresh && { site: asked.site }) })).then((said) => {
    if ('made' in said) asked.good({ made: said.made, pages: said.pages });
  }, asked.bad);
}

/** The last sheet as PDF. */
export async function pdf(): Promise<Uint8Array<ArrayBuffer>> {
  const said = await ask((id) => ({ id, pdf: true }));
  if (!('bytes' in said)) throw new Error('no PDF came');
  return said.bytes;
}

/** The text of the site in a PDF that the planner saved; why there is none is thrown. */
export async function siteIn(file: Uint8Array<ArrayBuffer>): Promise<string> {
  const said = await ask((id) => ({ id, read: file }));
  if ('site' in said) return said.site;
  throw new Error('refused' in said ? said.refused : 'no site came');
}
