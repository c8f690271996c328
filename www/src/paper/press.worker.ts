// The worker that makes sheets and reads and writes other people's files, with a module of its own. It keeps the site it
// was last given worked out, so that only the first sheet of a site waits for that.
import init, { Press, bring_survey, read_survey, site_in_pdf } from '../wasm/batterboard_web_paper.js';
import wasmUrl from '../wasm/batterboard_web_paper_bg.wasm?url';
import type { Ask, Asks, FromPress, ToPress } from './messages.ts';

let press: Press | undefined;
const ready = init({ module_or_path: wasmUrl });

self.onmessage = async ({ data }: MessageEvent<ToPress>): Promise<void> => {
  const { id } = data;
  const say = (what: FromPress): void => self.postMessage(what);
  try {
    await ready;
    say({ id, answer: answer(data) });
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
    case 'pdf': {
      const bytes = press?.pdf() as Uint8Array<ArrayBuffer> | undefined;
      if (!bytes) throw new Error('no sheet was made yet');
      return bytes;
    }
    case 'file':
      return pressOf(asked.with.site).write(asked.with.wish);
    case 'read':
      try {
        return { site: site_in_pdf(asked.with.bytes) };
      } catch (why) {
        // A fault of the file; a panic would be no error of ours.
        if (why instanceof WebAssembly.RuntimeError) throw why;
        return { refused: why instanceof Error ? why.message : String(why) };
      }
    case 'survey':
      // The core writes every member of the settings.
      return read_survey(asked.with.text, asked.with.onto, asked.with.settings) as Asks['survey']['out'];
    case 'bring':
      return bring_survey(asked.with.text, asked.with.onto, asked.with.settings, asked.with.roles);
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
