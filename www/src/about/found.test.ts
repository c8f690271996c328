import { expect, test } from 'vitest';
import changes from './changes.md?raw';
import { found, grouped, readChanges } from './found.ts';

const ALL = [
  { group: 'Safety standards', name: 'Spoil stands back', source: '29 CFR 1926.651(j)(2)' },
  { group: 'Soil', name: 'Weight, clay', source: 'a table' },
  { group: 'Safety standards', name: 'A way out', source: '29 CFR 1926.651(c)(2)' },
];

test('every word that is typed has to stand somewhere', () => {
  expect(found(ALL, 'cfr out').map((it) => it.name)).toEqual(['A way out']);
  expect(found(ALL, '  ').length).toBe(3);
  expect(found(ALL, 'gravel')).toEqual([]);
});

test('figures stand under their heading, in order', () => {
  expect(grouped(ALL).map(([group, of]) => [group, of.length])).toEqual([
    ['Safety standards', 2],
    ['Soil', 1],
  ]);
});

test('changes are read as they are written', () => {
  expect(readChanges('# Changes\n\n## 0.2\n\n- One\n  goes on.\n- Two\n\n## 0.1\n- Old\n')).toEqual([
    ['0.2', ['One goes on.', 'Two']],
    ['0.1', ['Old']],
  ]);
  const ours = readChanges(changes);
  expect(ours.length).toBeGreaterThan(0);
  for (const [when, rows] of ours) expect([when, rows.length > 0]).toEqual([when, true]);
});
