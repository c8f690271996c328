import { expect, test } from 'vitest';
import type { Finding } from '../core/types.ts';
import { places } from './places.ts';

const finding = (code: string, parts: Partial<Finding>): Finding => ({
  severity: 'caution',
  code,
  pointer: '',
  topic: 'dig',
  scope: 'site',
  at: null,
  message: '',
  remedy: '',
  ...parts,
});

const deep = finding('deep', {});
const near = finding('near', { scope: 'placement' });
const note = finding('note', { scope: 'placement', severity: 'note' });
const worth = finding('worth', { topic: 'cost' });
const all = [deep, near, note, worth];

test('in an open group everything stands beside its number', () => {
  const found = places(all, ['dig', 'cost'], ['dig']);
  expect(found.get('dig')).toEqual([deep, near, note]);
  expect(found.get('verdict')).toBeUndefined();
  expect(found.get('cost')).toEqual([worth]);
});

test('what presses is not shut away in a closed group', () => {
  const found = places(all, ['dig', 'cost'], []);
  expect(found.get('verdict')).toEqual([near]);
  expect(found.get('dig')).toEqual([deep, note]);
});

test('what has no group stands under the clearances', () => {
  expect(places(all, [], []).get('clearances')).toEqual(all);
});
