import { describe, expect, it } from 'vitest';
import type { Photograph } from '../core/types.ts';
import { alternative, factsOf, looking } from './words.ts';

const photograph: Photograph = {
  id: 'a',
  at: [1, 2],
  bearing: Math.PI / 4,
  when: '2026-11-30 09:40',
  stage: 'dug',
  note: 'The bank at the shed',
  width: 7,
  height: 3,
  data: '',
};

describe('what is said of a photograph', () => {
  it('names the nearest of eight directions, whichever way round the bearing is counted', () => {
    expect(looking(0)).toBe('Looking north');
    expect(looking(Math.PI / 8 - 0.001)).toBe('Looking north');
    expect(looking(Math.PI / 8 + 0.001)).toBe('Looking northeast');
    expect(looking(-Math.PI / 2)).toBe('Looking west');
    expect(looking(2 * Math.PI - 0.001)).toBe('Looking north');
    expect(looking(undefined)).toBe('Direction not entered');
  });

  it('is told in sentences to who does not see it', () => {
    expect(alternative(photograph, 3, 12)).toBe('Photograph 3 of 12. Looking northeast. Dug. 2026-11-30 09:40. The bank at the shed.');
    const bare: Photograph = { id: 'b', at: [0, 0], width: 7, height: 3, data: '' };
    expect(alternative(bare, 1, 1)).toBe('Photograph 1 of 1. Direction not entered.');
    expect(factsOf(bare)).toEqual(['Direction not entered']);
  });
});
