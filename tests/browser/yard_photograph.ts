// A photograph of an invented yard, drawn, with what a camera notes beside it: how it was held, when, and where on earth.
import type { Page } from '@playwright/test';

/** When the camera says it was taken, and as the page shows that. */
export const TAKEN = '2026:11:30 09:40:12';
export const TAKEN_SHOWN = '2026-11-30 09:40';

interface Drawn {
  /** What stands in it. */
  words: string;
  sky: string;
  width?: number;
  height?: number;
  /** How the camera was held: 1 upright, 6 on its side (Exif 2.32, 4.6.4). */
  held?: 1 | 6;
}

/** Its file: a JPEG with the camera's notes. */
export async function yardPhotograph(page: Page, { words, sky, width = 2000, height = 1500, held = 1 }: Drawn): Promise<Buffer> {
  const url = await page.evaluate(
    ([text, color, wide, tall]) => {
      const canvas = document.createElement('canvas');
      canvas.width = wide;
      canvas.height = tall;
      const pen = canvas.getContext('2d')!;
      pen.fillStyle = color;
      pen.fillRect(0, 0, wide, tall * 0.55);
      pen.fillStyle = '#6f8f4e';
      pen.fillRect(0, tall * 0.55, wide, tall * 0.45);
      pen.fillStyle = '#8a6a4a';
      pen.beginPath();
      pen.ellipse(wide * 0.5, tall * 0.8, wide * 0.3, tall * 0.13, 0, 0, 7);
      pen.fill();
      pen.fillStyle = '#d8c9b4';
      pen.fillRect(wide * 0.08, tall * 0.3, wide * 0.3, tall * 0.27);
      pen.fillStyle = '#7a3b2c';
      pen.beginPath();
      pen.moveTo(wide * 0.05, tall * 0.3);
      pen.lineTo(wide * 0.23, tall * 0.16);
      pen.lineTo(wide * 0.41, tall * 0.3);
      pen.fill();
      pen.fillStyle = '#1b2a34';
      pen.font = `700 ${Math.round(tall / 11)}px sans-serif`;
      pen.fillText(text, wide * 0.44, tall * 0.3);
      return canvas.toDataURL('image/jpeg', 0.9);
    },
    [words, sky, width, height] as const,
  );
  const jpeg = Buffer.from(url.replace(/^[^,]*,/, ''), 'base64');
  return Buffer.concat([jpeg.subarray(0, 2), notes(held), jpeg.subarray(2)]);
}

/** The first application segment: a TIFF file with how it was held, when it was taken, and where. */
function notes(held: number): Buffer {
  const tiff = Buffer.alloc(260);
  tiff.write('MM');
  tiff.writeUInt16BE(42, 2);
  tiff.writeUInt32BE(8, 4);
  const entry = (at: number, tag: number, type: number, count: number, value: number, short = false) => {
    tiff.writeUInt16BE(tag, at);
    tiff.writeUInt16BE(type, at + 2);
    tiff.writeUInt32BE(count, at + 4);
    if (short) tiff.writeUInt16BE(value, at + 8);
    else tiff.writeUInt32BE(value, at + 8);
  };
  tiff.writeUInt16BE(4, 8);
  entry(10, 0x0110, 2, 16, 180);
  entry(22, 0x0112, 3, 1, held, true);
  entry(34, 0x8769, 4, 1, 70);
  entry(46, 0x8825, 4, 1, 100);
  tiff.writeUInt16BE(1, 70);
  entry(72, 0x9003, 2, 20, 200);
  tiff.writeUInt16BE(2, 100);
  entry(102, 0x0001, 2, 2, 0x4e000000);
  entry(114, 0x0002, 5, 3, 226);
  tiff.write('INVENTED CAMERA\0', 180);
  tiff.write(`${TAKEN}\0`, 200);
  for (const [i, part] of [12, 34, 56].entries()) {
    tiff.writeUInt32BE(part, 226 + 8 * i);
    tiff.writeUInt32BE(1, 230 + 8 * i);
  }
  const head = Buffer.from([0xff, 0xe1, 0, 0, 0x45, 0x78, 0x69, 0x66, 0, 0]);
  head.writeUInt16BE(8 + tiff.length, 2);
  return Buffer.concat([head, tiff]);
}
