// Tabs that want the same job, with a stand-in for the browser's locks: one has it, the others follow, and it goes over
// when it is asked for, when the other leaves, and when the other does not answer.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Claim, type Neighbors, type Said } from './tabs.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

interface Request {
  options: LockOptions;
  callback: (lock: Lock | null) => unknown;
  settle: { resolve: (value: unknown) => void; reject: (error: unknown) => void };
}

/** Exclusive locks as the standard has them: in the order of asking, only if free, stolen, given up. */
class Locks {
  private held = new Map<string, Request>();
  private queue = new Map<string, Request[]>();

  request = ((name: string, options: LockOptions, callback: Request['callback']) =>
    new Promise<unknown>((resolve, reject) => {
      const it: Request = { options, callback, settle: { resolve, reject } };
      options.signal?.addEventListener('abort', () => {
        const waiting = this.queue.get(name) ?? [];
        if (!waiting.includes(it)) return;
        this.queue.set(name, waiting.filter((other) => other !== it));
        reject(new DOMException('', 'AbortError'));
      });
      queueMicrotask(() => this.ask(name, it));
    })) as LockManager['request'];

  private ask(name: string, it: Request): void {
    const holder = this.held.get(name);
    if (it.options.ifAvailable && holder) return void Promise.resolve(it.callback(null)).then(it.settle.resolve);
    if (it.options.steal && holder) {
      this.held.delete(name);
      holder.settle.reject(new DOMException('', 'AbortError'));
      return this.grant(name, it);
    }
    if (!holder) return this.grant(name, it);
    this.queue.set(name, [...(this.queue.get(name) ?? []), it]);
  }

  private grant(name: string, it: Request): void {
    this.held.set(name, it);
    void Promise.resolve(it.callback({ name, mode: 'exclusive' } as Lock)).then((value) => {
      it.settle.resolve(value);
      if (this.held.get(name) !== it) return;
      this.held.delete(name);
      const [next, ...rest] = this.queue.get(name) ?? [];
      this.queue.set(name, rest);
      if (next) this.grant(name, next);
    });
  }
}

/** Tabs of one browser; `asleep` ones hear nothing. */
function browser() {
  const locks = new Locks();
  const tabs = new Map<string, Claim>();
  const asleep = new Set<string>();
  const log: string[] = [];
  const open = (me: string): Claim => {
    const say = (it: Said) => {
      for (const [name, tab] of tabs) if (name !== me && !asleep.has(name)) void tab.hear(it);
    };
    const neighbors: Neighbors = { locks, say };
    const told = {
      granted: () => void log.push(`${me} has it`),
      giving: async () => void log.push(`${me} writes`),
      lost: () => void log.push(`${me} follows`),
    };
    const claim = new Claim('job', me, told, neighbors);
    tabs.set(me, claim);
    return claim;
  };
  return { open, asleep, log };
}

const settle = () => vi.advanceTimersByTimeAsync(10);

test('the first has it, the second follows, and has it once the first leaves', async () => {
  const { open, log } = browser();
  const [a, b] = [open('a'), open('b')];
  const first = a.begin();
  await settle();
  expect(await first).toBe(true);
  const second = b.begin();
  await settle();
  expect(await second).toBe(false);
  expect(log).toEqual([]);
  a.end();
  await settle();
  expect(log).toEqual(['b has it']);
});

test('it goes over when asked for, what is unwritten first, and back again', async () => {
  const { open, log } = browser();
  const [a, b] = [open('a'), open('b')];
  void a.begin();
  void b.begin();
  await settle();
  b.take();
  await settle();
  expect(log.toSorted()).toEqual(['a follows', 'a writes', 'b has it']);
  expect(log.indexOf('a writes')).toBeLessThan(log.indexOf('b has it'));
  await vi.advanceTimersByTimeAsync(5000);
  a.take();
  await settle();
  expect(log.slice(3).toSorted()).toEqual(['a has it', 'b follows', 'b writes']);
});

test('of several that follow, the one that asked has it', async () => {
  const { open, log } = browser();
  const [a, b, c] = [open('a'), open('b'), open('c')];
  void a.begin();
  void b.begin();
  void c.begin();
  await settle();
  c.take();
  await vi.advanceTimersByTimeAsync(5000);
  expect(log.filter((it) => it.endsWith('has it'))).toEqual(['c has it']);
});

test('from a tab that does not answer it is taken', async () => {
  const { open, asleep, log } = browser();
  const [a, b] = [open('a'), open('b')];
  void a.begin();
  void b.begin();
  await settle();
  asleep.add('a');
  b.take();
  await vi.advanceTimersByTimeAsync(1000);
  expect(log).toEqual([]);
  await vi.advanceTimersByTimeAsync(1000);
  expect(log.toSorted()).toEqual(['a follows', 'b has it']);
});

test('a job given up is not given back', async () => {
  const { open, log } = browser();
  const [a, b] = [open('a'), open('b')];
  void a.begin();
  void b.begin();
  await settle();
  b.end();
  a.end();
  await vi.advanceTimersByTimeAsync(5000);
  expect(log).toEqual([]);
});

test('without locks every tab works', async () => {
  const told = { granted: () => {}, giving: () => Promise.resolve(), lost: () => {} };
  expect(await new Claim('job', 'me', told, { locks: undefined, say: () => {} }).begin()).toBe(true);
});
