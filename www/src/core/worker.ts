// The worker that answers what takes long. It instantiates the page's own compiled module a second time and goes
// through a question step by step; between two steps it listens, so that a question can be given up.
import { instance, type Core } from './load.ts';
import type { FromWorker, ToWorker } from './messages.ts';

type Asked = Extract<ToWorker, { id: number }>;

let module: WebAssembly.Module | undefined;
let core: Promise<Core> | undefined;
const waiting: Asked[] = [];
let working = false;

const say = (what: FromWorker): void => self.postMessage(what);

self.onmessage = ({ data }: MessageEvent<ToWorker>): void => {
  if ('module' in data) {
    module = data.module;
    return;
  }
  if ('cancel' in data) {
    const at = waiting.findIndex((it) => it.id === data.cancel);
    if (at >= 0) waiting.splice(at, 1);
    return;
  }
  waiting.push(data);
  void work();
};

async function work(): Promise<void> {
  if (working) return;
  working = true;
  for (let asked = waiting[0]; asked; asked = waiting[0]) {
    try {
      await answer(asked);
    } catch (error) {
      say({ id: asked.id, failed: String(error) });
    }
    if (waiting[0] === asked) waiting.shift();
  }
  working = false;
}

async function answer(asked: Asked): Promise<void> {
  if (!module) throw new Error('the module has not come yet');
  core ??= instance(module);
  const { Study } = await core;
  const study = new Study(asked.site, asked.question);
  for (;;) {
    const progress = study.step();
    if (progress.done >= progress.of) break;
    say({ id: asked.id, progress });
    await heard();
    if (waiting[0] !== asked) return study.free();
  }
  const found = study.answer();
  study.free();
  if (!found) throw new Error('a study ended without an answer');
  say({ id: asked.id, answer: found });
}

/** Lets what the page has said in the meantime be heard. */
const turns = new MessageChannel();
function heard(): Promise<void> {
  return new Promise((done) => {
    turns.port1.onmessage = () => done();
    turns.port2.postMessage(null);
  });
}
