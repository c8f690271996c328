// Writes come soon, one at a time, the newest state each; what fails is tried again.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Saver } from './saver.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function desk(write: (it: number) => Promise<void> = () => Promise.resolve()) {
  const it = { now: 0, taken: 0, written: [] as number[], failed: [] as number[] };
  const saver = new Saver<number>({
    capture: () => (it.now === it.taken ? undefined : (it.taken = it.now)),
    write: async (value) => {
      await write(value);
      it.written.push(value);
    },
    failed: (value) => {
      it.failed.push(value);
      it.taken = 0;
    },
  });
  const change = () => {
    it.now += 1;
    saver.ask();
  };
  return { it, saver, change };
}

test('the first change is written at once, those that follow together a moment later', async () => {
  const { it, change } = desk();
  change();
  await vi.advanceTimersByTimeAsync(0);
  expect(it.written).toEqual([1]);
  change();
  change();
  change();
  await vi.advanceTimersByTimeAsync(100);
  expect(it.written).toEqual([1]);
  await vi.advanceTimersByTimeAsync(200);
  expect(it.written).toEqual([1, 4]);
});

test('while one is written the next waits, and nothing is lost of what came meanwhile', async () => {
  let done = () => {};
  const { it, change } = desk(() => new Promise((resolve) => (done = resolve)));
  change();
  await vi.advanceTimersByTimeAsync(0);
  change();
  change();
  await vi.advanceTimersByTimeAsync(1000);
  expect(it.written).toEqual([]);
  done();
  await vi.advanceTimersByTimeAsync(300);
  done();
  await vi.advanceTimersByTimeAsync(0);
  expect(it.written).toEqual([1, 3]);
});

test('what must be written now is taken now, and told when it is written', async () => {
  const { it, saver, change } = desk();
  change();
  const done = saver.flush();
  it.now = 0;
  it.taken = 0;
  await done;
  expect(it.written).toEqual([1]);
  await saver.flush();
  expect(it.written).toEqual([1]);
});

test('what fails is told and tried again, and once it works nothing is left', async () => {
  let broken = true;
  const { it, change } = desk(() => (broken ? Promise.reject(new Error('full')) : Promise.resolve()));
  change();
  await vi.advanceTimersByTimeAsync(0);
  expect(it.failed).toEqual([1]);
  broken = false;
  await vi.advanceTimersByTimeAsync(20_000);
  expect(it.written).toEqual([1]);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(it.written).toEqual([1]);
});
