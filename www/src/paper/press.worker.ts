// The worker that makes sheets and reads and writes other people's files, with a module of its own. It keeps the site it
// was last given worked out, so that only the first sheet of a site waits for that.
import init, { Finder, JobInSpace, Press, Yard, bring_survey, cast_shade, check_edge, cures, largest_rectangle, list_sources, measure_access, measure_sun, read_survey, site_in_pdf, sun_in_space } from '../wasm/batterboard_web_paper.js';
import wasmUrl from '../wasm/batterboard_web_paper_bg.wasm?url';
import type { Ask, Asks, FromPress, ToPress } from './messages.ts';

let press: Press | undefined;
let finder: Finder | undefined;
let yard: Yard | undefined;
const ready = init({ module_or_path: wasmUrl });

self.onmessage = async ({ data }: MessageEvent<ToPress>): Promise<void> => {
  const { id } = data;
  const say = (what: FromPress): void => self.postMessage(what);
  try {
    await ready;
    const found = answer(data);
    self.postMessage({ id, answer: found } satisfies FromPress, { transfer: buffersOf(data.ask, found) });
  } catch (error) {
    say({ id, failed: String(error) });
  }
};

function answer(asked: ToPress): Asks[Ask]['out'] {
  switch (asked.ask) {
    case 'sheet': {
      const it = pressOf(asked.with.site);
      const made = it.make(asked.with.wish);
      return { made, pages: made.pages.map((_, page) => it.svg(page) ?? '') };
    }
    case 'edge':
      return check_edge(asked.with.text);
    case 'access':
      return measure_access(asked.with.text);
    case 'pdf': {
      const bytes = press?.pdf() as Uint8Array<ArrayBuffer> | undefined;
      if (!bytes) throw new Error('no sheet was made yet');
      return bytes;
    }
    case 'file':
      return pressOf(asked.with.site).write(asked.with.wish);
    case 'read':
      return orRefused(() => ({ site: site_in_pdf(asked.with.bytes) }));
    case 'sun': {
      const { site, date, offset } = asked.with;
      return orRefused(() => ({ figures: measure_sun(site, date, offset) }));
    }
    case 'shade': {
      const { site, date, offset, minutes } = asked.with;
      return cast_shade(site, date, offset, minutes) ?? null;
    }
    case 'find':
      finder?.free();
      finder = undefined;
      finder = new Finder(asked.with.site, asked.with.wish);
      return finder.around();
    case 'find-on':
      if (!finder) throw new Error('no search was begun');
      return finder.step();
    case 'cures':
      return cures(asked.with.site);
    case 'largest':
      return largest_rectangle(asked.with.site, asked.with.proportion) ?? null;
    case 'yard': {
      const { site, wish } = asked.with;
      return orRefused(() => {
        const it = yardOf(site);
        return { view: it.view(wish), svg: it.svg() ?? '' };
      });
    }
    case 'yard-section':
      return yardOf().section(asked.with.yard, asked.with.width) ?? null;
    case 'yard-sun': {
      const { yard: which, date, offset } = asked.with;
      return orRefused(() => ({ figures: yardOf().sun(which, date, offset) }));
    }
    case 'yard-shade': {
      const { yard: which, date, offset, minutes } = asked.with;
      return yardOf().shade(which, date, offset, minutes) ?? null;
    }
    case 'sources':
      return list_sources(asked.with.metres);
    case 'space':
      return inSpace(asked.with.site);
    case 'space-sun': {
      const { site, date, offset } = asked.with;
      return orRefused(() => ({ path: sun_in_space(site, date, offset) ?? null }));
    }
    case 'survey':
      // The core writes every member of the settings.
      return read_survey(asked.with.text, asked.with.onto, asked.with.settings) as Asks['survey']['out'];
    case 'bring':
      return bring_survey(asked.with.text, asked.with.onto, asked.with.settings, asked.with.roles);
  }
}

/** What is handed over instead of copied: the corners of bodies. */
function buffersOf(asked: Ask, answer: Asks[Ask]['out']): ArrayBuffer[] {
  if (asked !== 'space') return [];
  const { corners, points } = answer as Asks['space']['out'];
  return [...corners, ...points].map((it) => it.buffer);
}

function inSpace(site: string): Asks['space']['out'] {
  const job = new JobInSpace(site);
  try {
    const record = job.record();
    const corners = record.bodies.map((_, i) => job.corners(i) as Float32Array<ArrayBuffer>);
    const points = record.marks.map((_, i) => job.points(i) as Float32Array<ArrayBuffer>);
    return { record, corners, points };
  } finally {
    job.free();
  }
}

/** An answer, or why what was given cannot be answered: a fault of what was given. A panic would be no error of ours. */
function orRefused<T>(asked: () => T): T | { refused: string } {
  try {
    return asked();
  } catch (why) {
    if (why instanceof WebAssembly.RuntimeError) throw why;
    return { refused: why instanceof Error ? why.message : String(why) };
  }
}

/** The press of a site: the last one, unless another text came. */
function pressOf(site: string | undefined): Press {
  if (site !== undefined) {
    press?.free();
    press = undefined;
    press = new Press(site);
  }
  if (!press) throw new Error('no site came yet');
  return press;
}

/** The yard of a site: the last one, unless a text came. */
function yardOf(site?: string): Yard {
  if (site !== undefined) {
    yard?.free();
    yard = undefined;
    yard = new Yard(site);
  }
  if (!yard) throw new Error('no yard came yet');
  return yard;
}
