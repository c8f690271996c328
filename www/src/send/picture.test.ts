import { expect, test } from 'vitest';
import { lines } from './picture.ts';

const letters = (text: string): number => text.length;

test('words break where a line is full, and a word too long for any line is cut', () => {
  expect(lines('It does not fit here yet', 11, letters)).toEqual(['It does not', 'fit here', 'yet']);
  expect(lines('a 0123456789ab b', 5, letters)).toEqual(['a', '01234', '56789', 'ab b']);
  expect(lines('  ', 5, letters)).toEqual([]);
});
