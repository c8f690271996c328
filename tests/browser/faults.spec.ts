// What breaks around the page: a panic of the core under a moving hand, a clock that was put back, pictures far too large, an
// update that breaks off half way. Nothing is lost, it is told in plain words, and the planner goes on.
import { crc32, deflateSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { addressOf, type Change, host } from './host.ts';
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

/** The next edition of the page, as far as the server has it: another title, and so another sum in the list of what is kept. */
const nextEdition =
  (broken: boolean): Change =>
  (path, text) => {
    if (path === 'index.html') return text().replace('<title>batterboard<', '<title>batterboard, next edition<');
    if (path === 'sw.js') return text().replace(/(url:"(?:index\.html|icon\.svg)",revision:")\w+"/g, '$1of-the-next-edition"');
    return broken && path === 'icon.svg' ? 'broken off' : undefined;
  };

test('an update that breaks off half way leaves the page as it was; whole, it waits until the page is opened again', async ({ browser }) => {
  test.setTimeout(180_000);
  let sent: Change = () => undefined;
  const server = await host((path, text) => sent(path, text));
  const context = await browser.newContext({ baseURL: addressOf(server), serviceWorkers: 'allow' });
  try {
    const page = await context.newPage();
    await openDemo(page, SITE);
    await expect(page.locator('.foot-offline')).toBeVisible({ timeout: 20_000 });
    await page.getByLabel('Name of the job').fill('Kept through the update');
    await page.getByLabel('Name of the job').press('Enter');
    await keptOnDevice(page);
    /** Looks for an update as the browser does from time to time, and says how that went. */
    const update = () =>
      page.evaluate(async () => {
        const registration = await navigator.serviceWorker.ready;
        await registration.update().catch(() => undefined);
        const coming = registration.installing ?? registration.waiting;
        while (coming && coming.state === 'installing') await new Promise((next) => coming.addEventListener('statechange', next, { once: true }));
        return coming?.state;
      });
    sent = nextEdition(true);
    expect(await update()).toBe('redundant');
    await context.setOffline(true);
    await page.reload();
    await expect(page.locator('.clearance').first()).toBeVisible({ timeout: 30_000 });
    await expect(page).toHaveTitle('batterboard');
    expect(await savedText(page)).toContain('Kept through the update');
    // A part that was never fetched is still the old edition's, which the server has no more.
    await page.keyboard.press('/');
    await page.keyboard.type('sources and licenses');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('dialog', { name: 'Sources and licenses' })).toBeVisible();
    await page.keyboard.press('Escape');
    await context.setOffline(false);

    sent = nextEdition(false);
    expect(await update()).toBe('installed');
    await expect(page.locator('.notice')).toContainText('A newer planner is ready');
    expect(await savedText(page)).toContain('Kept through the update');
    await page.close();
    // The browser puts the new one in place once it sees that no tab is left.
    await expect(async () => {
      const next = await context.newPage();
      try {
        await next.goto('./?bench');
        await expect(next.locator('.clearance').first()).toBeVisible({ timeout: 30_000 });
        expect(await next.title()).toBe('batterboard, next edition');
        expect(await savedText(next)).toContain('Kept through the update');
      } finally {
        await next.close();
      }
    }).toPass({ timeout: 90_000 });
  } finally {
    await context.close();
    server.closeAllConnections();
    server.close();
  }
});
