import { expect, test } from 'vitest';
import { allowed } from './escape.ts';
import { pageOf, type PageOf } from './page.ts';

const HOSTILE = '</script><img src=x onerror="alert(1)">';

const inside = {
  record: { name: HOSTILE, origin: [0, 0, 0], reach: 8, stages: [], bodies: [], marks: [], labels: [], notes: [HOSTILE], section: null, placed: true },
  packed: { bodies: [], lines: [], data: '' },
} as unknown as NonNullable<PageOf['round']>['inside'];

const given: PageOf = {
  title: HOSTILE,
  firm: [HOSTILE, HOSTILE],
  shell: HOSTILE,
  day: 'November 30, 2026',
  fits: HOSTILE,
  short: true,
  against: [HOSTILE],
  facts: [[HOSTILE, HOSTILE]],
  yards: [{ name: HOSTILE, svg: '<svg></svg>' }],
  section: undefined,
  round: { inside, script: 'document.title += "</script>";', words: HOSTILE, picture: 'data:image/jpeg;base64,AAAA' },
  cautions: [HOSTILE],
  letters: '.r{color:red}',
  style: 'body{margin:0}',
  licenses: [{ of: HOSTILE, text: HOSTILE }],
};

test('whatever a job says is text, everywhere', async () => {
  const page = await pageOf(given);
  expect(page).not.toContain('<img src=x');
  expect(page.match(/<\/script>/g)).toHaveLength(2);
  // As text it stands in every place that was given it: twice or more of what is also a label.
  expect(page.split('&lt;/script&gt;&lt;img src=x onerror=&quot;alert(1)&quot;&gt;').length - 1).toBeGreaterThanOrEqual(16);
  // No attribute that runs anything, whatever the values of attributes say.
  expect(page.replace(/<script[^]*?<\/script>/g, '').replace(/"[^"]*"/g, '""')).not.toMatch(/<[^>]* on[a-z]+=/);
});

test('its policy allows the script and the style that are in it, and nothing else', async () => {
  const page = await pageOf(given);
  const part = (tag: string): string => new RegExp(`<${tag}>([^]*?)</${tag}>`).exec(page)?.[1] ?? '';
  const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1] ?? '';
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain(`script-src ${await allowed(part('script'))};`);
  expect(policy).toContain(`style-src ${await allowed(part('style'))};`);
  expect(policy).not.toContain('unsafe');
  expect(part('style')).toBe('body{margin:0}.r{color:red}');
});

test('what falls short is told, and without a model there is no script at all', async () => {
  const page = await pageOf({ ...given, round: undefined, fits: 'It does not fit here yet.', against: ['north line: 2\'-0" too close'] });
  expect(page).toContain('data-short="true"><p>It does not fit here yet.</p>');
  expect(page).toContain('north line: 2&#39;-0&quot; too close');
  expect(page).not.toContain('<script');
  expect(page).toContain("script-src 'none'");
});
