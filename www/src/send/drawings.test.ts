import { expect, test } from 'vitest';
import { drawing, lettersOf, sectionIn, setIn } from './drawings.ts';

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
  expect(drawing(words, { x: 0, y: 0, width: 1, height: 1 }, 'a', '')).toContain(words);
});

test('the section is what is clipped last, whole, and never the plan', () => {
  const plan = clip(1, '10 20 100 90', '<path d="M1 1"/>');
  const inner = `<path d="M2 2"/>\n${clip(3, '121 60 5 5', '<path d="M3 3"/>')}`;
  const sheet = page(plan + clip(2, '120 60 70 30', inner) + '<g class="foot"><path d="M4 4"/></g>');
  const section = { inner: `\n${inner}`, area: { x: 120, y: 60, width: 70, height: 30 } };
  expect(sectionIn(sheet, [10, 20, 100, 90])).toEqual(section);
  expect(sectionIn(page(plan), [10, 20, 100, 90])).toBeUndefined();
  expect(sectionIn(page(''), undefined)).toBeUndefined();
});
