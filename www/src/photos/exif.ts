// When a photograph was taken, as its camera noted it: the one thing that is read of what stands beside the picture. Exif 2.32
// (CIPA DC-008), sections 4.5 and 4.6: a TIFF file in the first application segment of a JPEG.

const DATE_TIME = 0x0132;
const EXIF = 0x8769;
const DATE_TIME_ORIGINAL = 0x9003;

/** The local time as `2026-11-30 09:40`; empty where it is not noted. */
export function whenTaken(bytes: Uint8Array): string {
  try {
    return found(bytes) ?? '';
  } catch {
    // It breaks off, or leads nowhere.
    return '';
  }
}

function found(bytes: Uint8Array): string | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.getUint16(0) !== 0xffd8) return undefined;
  for (let at = 2; view.getUint8(at) === 0xff; at += 2 + view.getUint16(at + 2)) {
    const marker = view.getUint8(at + 1);
    if (marker === 0xda || marker === 0xd9) return undefined;
    if (marker === 0xe1 && letters(view, at + 4, 4) === 'Exif') return inTiff(view, at + 10);
  }
  return undefined;
}

const letters = (view: DataView, at: number, count: number): string =>
  Array.from({ length: count }, (_, i) => String.fromCharCode(view.getUint8(at + i))).join('');

function inTiff(view: DataView, start: number): string | undefined {
  const little = letters(view, start, 2) === 'II';
  if (view.getUint16(start + 2, little) !== 42) return undefined;
  const first = entries(view, start, view.getUint32(start + 4, little), little);
  const more = first.get(EXIF);
  const exif = more === undefined ? undefined : entries(view, start, view.getUint32(more, little), little);
  const at = exif?.get(DATE_TIME_ORIGINAL) ?? first.get(DATE_TIME);
  if (at === undefined) return undefined;
  // `2026:11:30 09:40:12`: twenty letters, so they stand elsewhere.
  const told = letters(view, start + view.getUint32(at, little), 16);
  const [, year, month, day, clock] = /^(\d{4}):(\d\d):(\d\d) (\d\d:\d\d)$/.exec(told) ?? [];
  return year === undefined || year === '0000' ? undefined : `${year}-${month}-${day} ${clock}`;
}

/** Where the value of each entry of a directory stands. */
function entries(view: DataView, start: number, offset: number, little: boolean): Map<number, number> {
  const at = start + offset;
  const count = view.getUint16(at, little);
  return new Map(Array.from({ length: count }, (_, i) => [view.getUint16(at + 2 + 12 * i, little), at + 10 + 12 * i]));
}
