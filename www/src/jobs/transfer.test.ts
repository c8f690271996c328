// All jobs in one file: the same comes back, and of a file that is not right everything wrong is told by its place.
import { expect, test } from 'vitest';
import { isJobsFile } from './together.ts';
import { packed, unpacked, type JobsFile } from './transfer.ts';

const NOW = Date.UTC(2026, 2, 3, 10);

const FILE: JobsFile = {
  jobs: [
    {
      id: 'a1',
      place: '12 Mill Lane',
      status: 'for-permit',
      archived: true,
      created: NOW - 5000,
      changed: NOW - 1000,
      site: { format: 'batterboard-site', name: 'Alder', lot: { start: [0.1, 1e-9] } },
      picture: 'picture-1',
      versions: [{ name: 'first', at: NOW - 3000, site: { name: 'Alder', lot: {} }, picture: '' }],
    },
    { id: 'b2', place: '', status: 'set', archived: false, created: NOW, changed: NOW, site: {}, picture: '', versions: [] },
  ],
  pictures: { 'picture-1': 'AAAA' },
};

test('what goes out comes back', () => {
  const text = packed(FILE, NOW);
  expect(isJobsFile(text)).toBe(true);
  expect(packed(FILE, NOW)).toBe(text);
  expect(unpacked(text)).toEqual({ file: FILE, findings: [] });
  expect(isJobsFile('{"format":"batterboard-site"}')).toBe(false);
});

test('a text that is no file of jobs gives one fault that says how to mend it', () => {
  const text = packed(FILE, NOW);
  const cases: [string, string, string][] = [
    [text.slice(0, text.length / 2), 'syntax', ''],
    ['', 'syntax', ''],
    ['[]', 'format', '/format'],
    ['{"format":"batterboard-site","version":3}', 'format', '/format'],
    ['{"format":"batterboard-jobs"}', 'version', '/version'],
    ['{"format":"batterboard-jobs","version":2,"jobs":[]}', 'version', '/version'],
    ['{"format":"batterboard-jobs","version":1}', 'member', '/jobs'],
  ];
  for (const [broken, code, pointer] of cases) {
    const { file, findings } = unpacked(broken);
    expect(file.jobs).toEqual([]);
    expect(findings.map((it) => [it.code, it.pointer])).toEqual([[code, pointer]]);
    for (const it of findings) expect(it.message.length * it.remedy.length).toBeGreaterThan(0);
  }
});

test('a job that is not right is left out by its place, the others come in', () => {
  const jobs = [
    7,
    { id: 'x' },
    { site: {}, picture: 'missing' },
    { site: { name: 'good' }, status: 'sunk', changed: 'yesterday', versions: 'none' },
    { site: {}, changed: '2026-03-03T10:00:00.000Z', versions: [{ site: {}, at: '2026-03-01T10:00:00.000Z' }, 5, {}] },
  ];
  const { file, findings } = unpacked(JSON.stringify({ format: 'batterboard-jobs', version: 1, jobs, pictures: { a: 1 } }));
  expect(file.jobs).toHaveLength(2);
  expect(file.jobs[0]).toMatchObject({ status: 'sketched', changed: 0, versions: [], id: '', place: '' });
  expect(file.jobs[1]).toMatchObject({ changed: NOW, created: NOW });
  expect(file.jobs[1]?.versions).toHaveLength(1);
  expect(findings.map((it) => it.pointer).toSorted()).toEqual([
    '/jobs/0',
    '/jobs/1/site',
    '/jobs/2/picture',
    '/jobs/3/changed',
    '/jobs/3/status',
    '/jobs/3/versions',
    '/jobs/4/versions/1',
    '/jobs/4/versions/2/site',
    '/pictures',
  ]);
});
