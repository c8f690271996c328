// What breaks around the page: a panic of the core under a moving hand, a clock that was put back, pictures far too large. Nothing is
// lost, it is told in plain words, and the planner goes on.
import { crc32, deflateSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { keptOnDevice, openDemo, openStep, savedText, settled, shellOnScreen, standing } from './site.ts';

const SITE = 'level-suburban.json';

test.use({ serviceWorkers: 'allow' });

test('a panic of the core while a hand drags is told; what was there before the drag is there, and drags again', async ({ page }) => {
  await openDemo(page, SITE);
  await settled(page);
  const text = await savedText(page);
  const from = await shellOnScreen(page);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + 20, from.y + 10, { steps: 4 });
  await page.evaluate(() =>
    window.bench.ask(() => {
      throw new WebAssembly.RuntimeError('unreachable');
    }, undefined),
  );
  await page.mouse.move(from.x + 40, from.y + 20, { steps: 4 });
  await page.mouse.up();
  await expect(page.locator('.notice')).toContainText('had to restart');
  await settled(page);
  expect(await savedText(page)).toBe(text);
  const before = (await standing(page)).at;
  const again = await shellOnScreen(page);
  await page.mouse.move(again.x, again.y);
  await page.mouse.down();
  await page.mouse.move(again.x + 30, again.y, { steps: 5 });
  await page.mouse.up();
  await expect.poll(async () => (await standing(page)).at[0]).toBeGreaterThan(before[0]);
});

test('a clock that is put back loses nothing', async ({ page }) => {
  await page.clock.setFixedTime(new Date('2026-08-20T10:00:00'));
  await openDemo(page, SITE);
  await page.getByLabel('Name of the job').fill('Before the clock went back');
  await page.getByLabel('Name of the job').press('Enter');
  await keptOnDevice(page);
  await page.clock.setFixedTime(new Date('2019-01-02T03:04:05'));
  await page.getByLabel('Name of the job').fill('After it');
  await page.getByLabel('Name of the job').press('Enter');
  await keptOnDevice(page);
  const text = await savedText(page);
  await page.reload();
  await settled(page);
  expect(await savedText(page)).toBe(text);
  expect(text).toContain('After it');
  await page.keyboard.press('Control+z');
  await expect.poll(() => savedText(page)).toContain('Before the clock went back');
});

/** A PNG (RFC 2083) of one bit to a pixel, all black: a few kilobytes of file, however many pixels. */
function blackPicture(width: number, height: number): Buffer {
  const chunk = (name: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
    const ends = Buffer.alloc(8);
    ends.writeUInt32BE(data.length, 0);
    ends.writeUInt32BE(crc32(body), 4);
    return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 1;
  const rows = Buffer.alloc((Math.ceil(width / 8) + 1) * height);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk('IHDR', head), chunk('IDAT', deflateSync(rows, { level: 9 })), chunk('IEND', Buffer.alloc(0))]);
}

test('a picture of 200 megapixels is made smaller or refused in words, and the plan works on', async ({ page }) => {
  test.setTimeout(120_000);
  await openDemo(page, SITE);
  await openStep(page, 'Lot');
  await page.getByText('Picture under the plan').click();
  const buffer = blackPicture(20_000, 10_000);
  await page.locator('input[data-picture="file"]').setInputFiles({ name: 'far-too-large.png', mimeType: 'image/png', buffer });
  const picture = async () => (JSON.parse(await savedText(page)) as { picture?: { width: number; height: number; data: string } }).picture;
  const said = page.getByText(/The picture is 20000 by 10000 pixels; at most 100 million are read|no picture that the browser can read/);
  await expect.poll(async () => ((await picture()) ? 'laid' : (await said.count()) > 0 ? 'told' : 'waiting'), { timeout: 90_000 }).not.toBe('waiting');
  const it = await picture();
  if (it) {
    expect(Math.max(it.width, it.height)).toBeLessThanOrEqual(4000);
    expect(it.data.length).toBeLessThan(3_000_000);
  } else {
    await expect(page.getByText(/save a smaller copy of it|Add a PNG, JPEG or WebP file/).first()).toBeVisible();
    await page.getByRole('button', { name: 'Go on' }).click();
  }
  await page.getByLabel('Name of the job').fill('Still at work');
  await page.getByLabel('Name of the job').press('Enter');
  await expect.poll(() => savedText(page)).toContain('Still at work');
});
