import { expect, test } from 'vitest';
import { Palms, type Contact } from './palm.ts';

const contact = (pointerId: number, pointerType: string, timeStamp: number, width = 20): Contact => ({
  pointerId,
  pointerType,
  timeStamp,
  width,
  height: 20,
});

test('a touch beside a pen is a palm, and so is one soon after it', () => {
  const palms = new Palms();
  expect(palms.rests(contact(1, 'touch', 0))).toBe(false);
  palms.pen(contact(9, 'pen', 100), true);
  // The pen writes for long.
  expect(palms.rests(contact(2, 'touch', 5000))).toBe(true);
  expect(palms.lifted(contact(9, 'pen', 6000))).toBe(false);
  expect(palms.rests(contact(3, 'touch', 6400))).toBe(true);
  expect(palms.rests(contact(4, 'touch', 6501))).toBe(false);
  // A palm stays one until it is lifted.
  expect(palms.rests(contact(2, 'touch', 9000))).toBe(true);
  expect(palms.lifted(contact(2, 'touch', 9001))).toBe(true);
  expect(palms.rests(contact(2, 'touch', 9002))).toBe(false);
});

test('a pen over the glass counts, a mouse never does', () => {
  const palms = new Palms();
  palms.pen(contact(9, 'pen', 1000), false);
  expect(palms.rests(contact(1, 'touch', 1200))).toBe(true);
  expect(palms.rests(contact(2, 'mouse', 1200))).toBe(false);
  expect(palms.rests(contact(3, 'pen', 1200))).toBe(false);
});

test('a broad touch is a palm, also one that grows broad', () => {
  const palms = new Palms();
  expect(palms.rests(contact(1, 'touch', 0, 140))).toBe(true);
  expect(palms.rests(contact(2, 'touch', 0, 60))).toBe(false);
  expect(palms.rests(contact(2, 'touch', 10, 120))).toBe(true);
  expect(palms.rests(contact(2, 'touch', 20, 60))).toBe(true);
});
