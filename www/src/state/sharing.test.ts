import { expect, test } from 'vitest';
import { sharing } from './sharing.ts';

test('what says the same stays the same object', () => {
  const before = { name: 'lot', rows: [{ key: 'a', text: '1 ft' }, { key: 'b', text: '2 ft' }], none: null };
  expect(sharing(before, structuredClone(before))).toBe(before);
  const now = structuredClone(before);
  now.rows[1]!.text = '3 ft';
  const expected = structuredClone(now);
  const taken = sharing(before, now);
  expect(taken).toEqual(expected);
  expect(taken).not.toBe(before);
  expect(taken.rows[0]).toBe(before.rows[0]);
  expect(taken.rows[1]).not.toBe(before.rows[1]);
});

test('parts that come and go are taken over', () => {
  type Row = { a?: number; b?: number | null };
  const steps: [Row[] | null, Row[]][] = [
    [null, [{ a: 1 }]],
    [[{ a: 1 }], []],
    [[], [{ a: 1 }]],
    [[{ a: 1, b: 2 }], [{ a: 1 }]],
    [[{ a: 1 }], [{ a: 1, b: null }]],
    [[{ b: null }], [{ b: 0 }]],
  ];
  for (const [before, now] of steps) {
    const expected = structuredClone(now);
    expect(sharing(before, now)).toEqual(expected);
  }
});
