import { describe, expect, it } from 'vitest';
import { imagesOf, joinedKeys, keepImages, keysIn, linesOf, readImages } from './images.ts';

/** A place that keeps lines, and counts what is put there. */
function place() {
  const kept = new Map<string, string>();
  let puts = 0;
  let keys = 0;
  return {
    kept,
    puts: () => puts,
    newKey: () => `k${(keys += 1)}`,
    lines: {
      get: async (key: string) => kept.get(key),
      put: async (line: string, key: string) => {
        puts += 1;
        kept.set(key, line);
      },
    },
  };
}

describe('the data of images', () => {
  it('of a site without photographs is kept as ever: one key, or none', async () => {
    const { kept, lines, newKey } = place();
    expect(await keepImages('', '', lines, newKey)).toBe('');
    expect(await keepImages('AAAA', '', lines, newKey)).toBe('k1');
    expect([...kept]).toEqual([['k1', 'AAAA']]);
    expect(await readImages('k1', lines)).toBe('AAAA');
    expect(await readImages('', lines)).toBe('');
  });

  it('is kept line by line, and only what is new', async () => {
    const at = place();
    const first = await keepImages('AAAA\nx BBBB', '', at.lines, at.newKey);
    expect(at.puts()).toBe(2);
    const second = await keepImages('AAAA\nx BBBB\ny CCCC', first, at.lines, at.newKey);
    expect(at.puts()).toBe(3);
    expect(await readImages(first, at.lines)).toBe('AAAA\nx BBBB');
    expect(await readImages(second, at.lines)).toBe('AAAA\nx BBBB\ny CCCC');
    // Without a picture the first line is empty.
    const third = await keepImages('\ny CCCC', second, at.lines, at.newKey);
    expect(at.puts()).toBe(3);
    expect(await readImages(third, at.lines)).toBe('\ny CCCC');
    expect(keysIn(third)).toHaveLength(1);
  });

  it('never overwrites what another job has under the same id', async () => {
    const at = place();
    const one = await keepImages('\nx BBBB', '', at.lines, at.newKey);
    const other = await keepImages('\nx DDDD', '', at.lines, at.newKey);
    expect(await readImages(one, at.lines)).toBe('\nx BBBB');
    expect(await readImages(other, at.lines)).toBe('\nx DDDD');
  });

  it('goes into a file of jobs by the same keys', () => {
    const keys = joinedKeys(['', 'p1', 'p2']);
    expect(imagesOf(keys, { p1: 'x BBBB', p2: 'y CCCC' })).toBe('\nx BBBB\ny CCCC');
    expect(linesOf('\nx BBBB\ny CCCC')).toEqual(['', 'x BBBB', 'y CCCC']);
    expect(imagesOf('', {})).toBe('');
  });
});
