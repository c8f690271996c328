import { describe, expect, it } from 'vitest';
import { whenTaken } from './exif.ts';

/** A JPEG whose first segment notes these entries: of the picture, and of how it was taken. */
function noted({ little = false, taken = '2026:11:30 09:40:12', changed = '' } = {}): Uint8Array {
  const bytes = new Uint8Array(200);
  const view = new DataView(bytes.buffer);
  const letters = (at: number, text: string) => [...text].forEach((it, i) => view.setUint8(at + i, it.charCodeAt(0)));
  const entry = (at: number, tag: number, type: number, count: number, value: number) => {
    view.setUint16(at, tag, little);
    view.setUint16(at + 2, type, little);
    view.setUint32(at + 4, count, little);
    view.setUint32(at + 8, value, little);
  };
  view.setUint32(0, 0xffd8ffe1);
  view.setUint16(4, 190);
  letters(6, 'Exif');
  const tiff = 12;
  letters(tiff, little ? 'II' : 'MM');
  view.setUint16(tiff + 2, 42, little);
  view.setUint32(tiff + 4, 8, little);
  const entries = changed === '' ? 1 : 2;
  view.setUint16(tiff + 8, entries, little);
  let at = tiff + 10;
  if (changed !== '') {
    entry(at, 0x0132, 2, 20, 120);
    letters(tiff + 120, changed);
    at += 12;
  }
  entry(at, 0x8769, 4, 1, 50);
  view.setUint16(tiff + 50, taken === '' ? 0 : 1, little);
  if (taken !== '') {
    entry(tiff + 52, 0x9003, 2, 20, 80);
    letters(tiff + 80, taken);
  }
  return bytes;
}

describe('when a photograph was taken', () => {
  it('is read either way round', () => {
    expect(whenTaken(noted())).toBe('2026-11-30 09:40');
    expect(whenTaken(noted({ little: true }))).toBe('2026-11-30 09:40');
  });

  it('is what the file says where the camera did not', () => {
    expect(whenTaken(noted({ taken: '', changed: '2025:01:02 03:04:05' }))).toBe('2025-01-02 03:04');
    expect(whenTaken(noted({ changed: '2025:01:02 03:04:05' }))).toBe('2026-11-30 09:40');
  });

  it('is empty where nothing is noted, or what is there leads nowhere', () => {
    expect(whenTaken(noted({ taken: '' }))).toBe('');
    expect(whenTaken(noted({ taken: '0000:00:00 00:00:00' }))).toBe('');
    expect(whenTaken(new Uint8Array())).toBe('');
    expect(whenTaken(Uint8Array.of(0x89, 0x50, 0x4e, 0x47))).toBe('');
    const whole = noted();
    for (let cut = 0; cut < whole.length; cut += 1) expect(typeof whenTaken(whole.slice(0, cut))).toBe('string');
    const astray = noted();
    new DataView(astray.buffer).setUint32(16, 0xfffffff0);
    expect(whenTaken(astray)).toBe('');
  });
});
