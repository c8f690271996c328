import { beforeEach, expect, test, vi } from 'vitest';
import { isNumber, isWords, remembered } from './device.ts';

const kept = new Map<string, string>();

beforeEach(() => {
  kept.clear();
  vi.stubGlobal('localStorage', {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, text: string) => void kept.set(name, text),
    removeItem: (name: string) => void kept.delete(name),
  });
});

test('what was set is there the next time', () => {
  remembered('width', 300, isNumber).value = 280;
  expect(remembered('width', 300, isNumber).value).toBe(280);
});

test('what is as it comes is not kept', () => {
  const width = remembered('width', 300, isNumber);
  width.value = 280;
  width.value = 300;
  expect(kept.size).toBe(0);
});

test('what does not fit, or is no text of ours, is left', () => {
  kept.set('width', '"wide"');
  kept.set('pins', '{broken');
  expect(remembered('width', 300, isNumber).value).toBe(300);
  expect(remembered('pins', ['loads'], isWords).value).toEqual(['loads']);
});

test('where storage is refused it still holds', () => {
  vi.stubGlobal('localStorage', {
    getItem: () => {
      throw new Error('refused');
    },
    setItem: () => {
      throw new Error('refused');
    },
  });
  const width = remembered('width', 300, isNumber);
  width.value = 280;
  expect(width.value).toBe(280);
});
