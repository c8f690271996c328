// The worker's keeper against a worker that does as it is told: what is heard, given up, and asked again.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { FromWorker, ToWorker } from './messages.ts';
import type { Question } from './types.ts';

vi.mock('./load.ts', () => ({ compiledCore: () => Promise.resolve({}) }));

const workers: Puppet[] = [];

class Puppet {
  onmessage: ((event: { data: FromWorker }) => void) | undefined;
  said: ToWorker[] = [];
  ended = false;
  constructor() {
    workers.push(this);
  }
  postMessage(what: ToWorker): void {
    this.said.push(what);
  }
  terminate(): void {
    this.ended = true;
  }
  says(data: FromWorker): void {
    this.onmessage?.({ data });
  }
  asked(): number[] {
    return this.said.flatMap((what) => ('question' in what ? [what.id] : []));
  }
}

const QUESTION = 'ranges' as unknown as Question;
const settled = () => new Promise((done) => setTimeout(done));

beforeEach(() => {
  vi.resetModules();
  workers.length = 0;
  vi.stubGlobal('Worker', Puppet);
  vi.spyOn(console, 'error').mockImplementation(() => {});
});
afterEach(() => vi.unstubAllGlobals());

test('a crash at a question given up ends the worker, and the rest is asked of a new one', async () => {
  const { study } = await import('./study.ts');
  const given = new AbortController();
  const first = study('a', 1, QUESTION, { signal: given.signal });
  const second = study('b', 1, QUESTION);
  await settled();
  const [old] = workers;
  expect(old?.asked()).toEqual([1, 2]);
  given.abort();
  await expect(first).rejects.toBe('stale');
  old?.says({ id: 1, failed: 'unreachable' });
  await settled();
  expect(old?.ended).toBe(true);
  const [, fresh] = workers;
  expect(fresh?.asked()).toEqual([2]);
  // What the old one had still to say is not heard.
  old?.says({ id: 2, failed: 'unreachable' });
  fresh?.says({ id: 2, answer: 'found' as never });
  await expect(second).resolves.toBe('found');
  expect(workers).toHaveLength(2);
});

test('a crash at a question that is wanted stops all, and the next question has a new worker', async () => {
  const { study } = await import('./study.ts');
  const first = study('a', 1, QUESTION);
  const second = study('b', 1, QUESTION);
  await settled();
  workers[0]?.says({ id: 1, failed: 'unreachable' });
  await expect(first).rejects.toBe('stopped');
  await expect(second).rejects.toBe('stopped');
  const third = study('c', 1, QUESTION);
  await settled();
  expect(workers[1]?.asked()).toEqual([3]);
  workers[1]?.says({ id: 3, answer: 'found' as never });
  await expect(third).resolves.toBe('found');
});

test('another revision gives up the older questions alone', async () => {
  const { study, giveUpOlder } = await import('./study.ts');
  const old = study('a', 1, QUESTION);
  const now = study('b', 2, QUESTION);
  await settled();
  giveUpOlder(2);
  await expect(old).rejects.toBe('stale');
  await settled();
  expect(workers[0]?.said).toContainEqual({ cancel: 1 });
  workers[0]?.says({ id: 2, answer: 'found' as never });
  await expect(now).resolves.toBe('found');
});
