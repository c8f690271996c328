import { expect, test } from 'vitest';
import { lettersOf, setIn } from './drawings.ts';

const clip = (id: number, area: string, inner: string): string => {
  const [x, y, width, height] = area.split(' ');
  return `<clipPath id="c${id}"><rect x="${x}" y="${y}" width="${width}" height="${height}"/></clipPath><g clip-path="url(#c${id})">\n${inner}</g>\n`;
};

const page = (inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="150mm" viewBox="0 0 200 150" xml:lang="en" role="img">\n<title>A job &lt;b&gt;</title>\n<style>.r{color:red}</style>\n${inner}</svg>\n`;

test('a drawing is set into a page under a name of its own, its letters apart', () => {
  const svg = page(clip(1, '0 0 200 150', '<path d="M0 0"/>'));
  expect(lettersOf(svg)).toBe('.r{color:red}');
  const set = setIn(svg, 'yard', 'The yard with "Plain 14"');
  expect(set).toContain('viewBox="0 0 200 150" role="img" aria-label="The yard with &quot;Plain 14&quot;"');
  expect(set).toContain('<clipPath id="yard-c1">');
  expect(set).toContain('clip-path="url(#yard-c1)"');
  expect(set).not.toContain('<style>');
  expect(() => setIn('<p>', 'yard', '')).toThrow('no drawing');
});

test('words that look like a clip stay as they are', () => {
  const words = '<text>&lt;clipPath id=&quot;c1&quot;&gt; url(#c1)</text>';
  expect(setIn(page(words), 'a', '')).toContain(words);
});
