// Questions that take long, asked of a worker. Each is of one revision of the site: an edit gives the older ones up,
// and no answer of theirs arrives. A worker that hangs or crashes is ended, and a new one started at the next question;
// nothing is lost with it, as it holds no document.
import { compiledCore } from './load.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import type { Answer, Progress, Question } from './types.ts';

/** Why there is no answer: it is not wanted any more (the site has changed, or who asked gave up), or the worker stopped. */
export type Unanswered = 'stale' | 'stopped';

interface Asked {
  id: number;
  revision: number;
  site: string;
  question: Question;
  answered: (answer: Answer) => void;
  unanswered: (why: Unanswered) => void;
  told: (progress: Progress) => void;
}

/** A step that takes longer than this hangs, milliseconds. */
const HANGS = 30_000;

const open = new Map<number, Asked>();
let worker: Promise<Worker> | undefined;
let ids = 0;
let watch: ReturnType<typeof setTimeout> | undefined;

interface Listening {
  /** Hears how far it is. */
  told?: ((progress: Progress) => void) | undefined;
  /** Gives the question up. */
  signal?: AbortSignal | undefined;
}

/** Asks one question of a site's text. Fails with an `Unanswered`. */
export function study(
  site: string,
  revision: number,
  question: Question,
  { told = () => {}, signal }: Listening = {},
): Promise<Answer> {
  ids += 1;
  const id = ids;
  return new Promise((answered, unanswered) => {
    const asked: Asked = { id, revision, site, question, answered, unanswered, told };
    open.set(id, asked);
    signal?.addEventListener('abort', () => giveUp(id));
    ask(asked);
    guard();
  });
}

function ask({ id, site, question }: Asked): void {
  const asking = started();
  asking.then(
    (it) => worker === asking && open.has(id) && send(it, { id, site, question }),
    (error: unknown) => worker === asking && stop('the worker could not be started', error),
  );
}

/** Gives up every question that is not of this revision. */
export function giveUpOlder(revision: number): void {
  for (const asked of open.values()) if (asked.revision !== revision) giveUp(asked.id);
}

function giveUp(id: number): void {
  const asked = open.get(id);
  if (!asked) return;
  open.delete(id);
  asked.unanswered('stale');
  void worker?.then((it) => send(it, { cancel: id }));
  guard();
}

/** Ends the worker, as a crash would. */
export function stopWorker(): void {
  stop('the worker was ended', undefined);
}

const send = (to: Worker, what: ToWorker): void => to.postMessage(what);

function started(): Promise<Worker> {
  worker ??= start();
  return worker;
}

async function start(): Promise<Worker> {
  const module = await compiledCore();
  const fresh = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'study' });
  fresh.onmessage = ({ data }: MessageEvent<FromWorker>) => hear(data);
  fresh.onerror = (event) => stop('the worker stopped', event.message);
  fresh.onmessageerror = () => stop('the worker was not understood', undefined);
  send(fresh, { module });
  return fresh;
}

function hear(said: FromWorker): void {
  const asked = open.get(said.id);
  if ('failed' in said) {
    // Its memory is not to be trusted any more, whether its answer is still wanted or not.
    if (asked) stop('the worker could not answer', said.failed);
    else renew('the worker could not answer', said.failed);
    return;
  }
  if (!asked) return;
  if ('progress' in said) asked.told(said.progress);
  else {
    open.delete(said.id);
    asked.answered(said.answer);
  }
  guard();
}

/** Ends a worker from which nothing is heard for long. */
function guard(): void {
  clearTimeout(watch);
  watch = open.size === 0 ? undefined : setTimeout(() => stop('the worker hangs', undefined), HANGS);
}

/** Ends the worker and asks a new one what is still open. */
function renew(why: string, error: unknown): void {
  end(why, error);
  for (const asked of open.values()) ask(asked);
  guard();
}

/** Ends the worker; what is open stays unanswered. */
function stop(why: string, error: unknown): void {
  end(why, error);
  const left = [...open.values()];
  open.clear();
  guard();
  for (const asked of left) asked.unanswered('stopped');
}

function end(why: string, error: unknown): void {
  console.error(why, error);
  const gone = worker;
  worker = undefined;
  void gone?.then(
    (it) => {
      // What it had still to say is not heard.
      it.onmessage = it.onerror = it.onmessageerror = null;
      it.terminate();
    },
    () => {},
  );
}
