// A photograph as large as they come from a phone or a map service: noise, which compresses badly, so that form and
// quality have to be stepped down until it fits.
import type { Page } from '@playwright/test';

/** Its file, a JPEG of 2600 by 1500 pixels; the same at every call. */
export async function photograph(page: Page): Promise<Buffer> {
  const data = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    canvas.width = 2600;
    canvas.height = 1500;
    const pen = canvas.getContext('2d')!;
    const image = pen.createImageData(2600, 1500);
    let state = 7;
    for (let i = 0; i < image.data.length; i += 1) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      image.data[i] = i % 4 === 3 ? 255 : state >>> 24;
    }
    pen.putImageData(image, 0, 0);
    return canvas.toDataURL('image/jpeg', 0.8).replace(/^[^,]*,/, '');
  });
  return Buffer.from(data, 'base64');
}
