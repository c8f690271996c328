// The worker that makes sheets, with a module of its own. It keeps the site it was last given worked out, so that only
// the first sheet of a site waits for that.
import init, { Press, site_in_pdf } from '../wasm/batterboard_web_paper.js';
import wasmUrl from '../wasm/batterboard_web_paper_bg.wasm?url';
import type { FromPress, ToPress } from './messages.ts';

let press: Press | undefined;
const ready = init({ module_or_path: wasmUrl });

const say = (what: FromPress, move: Transferable[] = []): void => self.postMessage(what, { transfer: move });

self.onmessage = async ({ data }: MessageEvent<ToPress>): Promise<void> => {
  try {
    await ready;
    answer(data);
  } catch (error) {
    say({ id: data.id, failed: String(error) });
  }
};

function answer(asked: ToPress): void {
  const { id } = asked;
  if ('pdf' in asked) {
    const bytes = press?.pdf() as Uint8Array<ArrayBuffer> | undefined;
    if (!bytes) throw new Error('no sheet was made yet');
    say({ id, bytes }, [bytes.buffer]);
    return;
  }
  if ('read' in asked) {
    try {
      say({ id, site: site_in_pdf(asked.read) });
    } catch (why) {
      // A fault of the file; a panic would be no error of ours.
      if (why instanceof WebAssembly.RuntimeError) throw why;
      say({ id, refused: why instanceof Error ? why.message : String(why) });
    }
    return;
  }
  if (asked.site !== undefined) {
    press?.free();
    press = undefined;
    press = new Press(asked.site);
  }
  if (!press) throw new Error('no site came yet');
  const made = press.make(asked.wanted);
  const pages = made.pages.map((_, page) => press?.svg(page) ?? '');
  say({ id, made, pages });
}
