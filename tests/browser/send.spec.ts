// What is taken away from the homeowner's view: a picture, a PDF page, and a page that opens from the device with no network at
// all, turns by mouse and keys, and shows whatever a job says as text.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test, type Browser, type BrowserContextOptions, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { expectSameSheet } from './program.ts';
import { SCREENS } from './screens.ts';
import { demoText, openDemo, openFile } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');
const HOSTILE = '</script><img src=x onerror="document.title=`taken`">';

// Without a graphics card each frame of three dimensions takes a tenth of a second and more.
test.describe.configure({ timeout: 180_000 });

const view = (page: Page) => page.getByRole('dialog', { name: 'Homeowner’s view' });

async function openSend(page: Page): Promise<void> {
  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'To send to the homeowner' }).click();
  await expect(view(page).getByRole('group', { name: 'To send' })).toBeVisible();
  await expect(view(page).locator('.shown-frame')).toHaveAttribute('aria-busy', 'false');
}

/** Saves one of the three into the results, and says where. */
async function saved(page: Page, name: 'Picture' | 'PDF page' | '3D page', as: string): Promise<{ path: string; name: string }> {
  const button = view(page).getByRole('button', { name, exact: true });
  const [file] = await Promise.all([page.waitForEvent('download', { timeout: 120_000 }), button.click()]);
  const path = join(RESULTS, as);
  await file.saveAs(path);
  return { path, name: file.suggestedFilename() };
}

/** The page that was saved, opened from the device without a network; what it asked for besides itself. */
async function opened(browser: Browser, path: string, options: BrowserContextOptions = {}, first?: () => void) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, offline: true, baseURL: '', ...options });
  if (first) await context.addInitScript(first);
  const page = await context.newPage();
  const address = pathToFileURL(path).href;
  const asked: string[] = [];
  const broken: string[] = [];
  context.on('request', (request) => request.url() !== address && asked.push(request.url()));
  page.on('pageerror', (error) => broken.push(String(error)));
  page.on('console', (message) => message.type() === 'error' && broken.push(message.text()));
  await page.goto(address);
  return { page, asked, broken, close: () => context.close() };
}

const box = (page: Page) => page.locator('.space-box');
const turning = (page: Page) => expect(box(page)).toHaveAttribute('data-turning', 'yes', { timeout: 60_000 });
const frames = async (page: Page): Promise<number> => Number(await page.locator('.space-canvas').getAttribute('data-frames'));

/** What the model looks like before and after something is done, once that was painted. */
async function looksOtherwise(page: Page, act: () => Promise<unknown>): Promise<void> {
  const before = await box(page).screenshot();
  const painted = await frames(page);
  await act();
  await expect.poll(() => frames(page)).toBeGreaterThan(painted);
  expect((await box(page).screenshot()).equals(before)).toBe(false);
}

const sizeOf = (png: Buffer): [number, number] => [png.readUInt32BE(16), png.readUInt32BE(20)];

for (const [demo, stem, most] of [
  ['sloping-hillside.json', 'sloping-hillside-lot', 2_000_000],
  ['level-suburban.json', 'level-suburban-lot', 1_500_000],
] as const) {
  test(`three things are saved of ${demo}, and the page turns without a network`, async ({ page, browser }) => {
    await openDemo(page, demo, 'as left');
    await openSend(page);
    await expect(view(page).getByRole('button', { name: 'Picture', exact: true })).toBeFocused();
    await expect(view(page).getByRole('button', { name: /^Share the/ })).toHaveCount(0);

    await test.step('a picture, large enough for a print', async () => {
      const { path, name } = await saved(page, 'Picture', `send-${demo}.png`);
      expect(name).toMatch(new RegExp(`${stem}-yard\\.png$`));
      const png = readFileSync(path);
      expect(png.subarray(1, 4).toString()).toBe('PNG');
      const [width, height] = sizeOf(png);
      expect(width).toBe(2400);
      expect(height).toBeGreaterThan(1400);
      await expect(view(page).locator('.send-told')).toContainText('is saved on this device');
    });
    await test.step('a PDF page, the one that the program makes', async () => {
      const { path, name } = await saved(page, 'PDF page', `send-${demo}.pdf`);
      expect(name).toMatch(/-yard\.pdf$/);
      const day = await page.evaluate(() => {
        const now = new Date();
        return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((it) => String(it).padStart(2, '0')).join('-');
      });
      await expectSameSheet(page, readFileSync(path), '--kind', 'home', '--day', day);
    });
    const elsewhere = view(page).getByRole('button', { name: 'Six inches lower' });
    if (demo.startsWith('sloping')) {
      await test.step('a place that was kept is sent as it is shown', async () => {
        await elsewhere.click();
        await expect(view(page).locator('.shown-differs')).toBeVisible();
        const kept = await saved(page, '3D page', 'send-kept.html');
        expect(kept.name).toMatch(/-place-2-yard\.html$/);
        const it = await opened(browser, kept.path, { javaScriptEnabled: false });
        await expect(it.page.locator('header')).toContainText('Six inches lower');
        await it.close();
        await view(page).getByRole('button', { name: 'As placed' }).click();
      });
    }
    const { path, name } = await saved(page, '3D page', `send-${demo}.html`);
    expect(name).toMatch(/-yard\.html$/);
    expect(readFileSync(path).length).toBeLessThan(most);
    const facts = await view(page).locator('dd').allTextContents();

    const it = await opened(browser, path);
    await turning(it.page);
    await test.step('it tells what the view tells', async () => {
      expect(await it.page.locator('.facts dd').allTextContents()).toEqual(facts);
      await expect(it.page.getByRole('img', { name: /^The yard with / })).toBeVisible();
      await expect(it.page.getByRole('img', { name: /^Section through the pool/ })).toBeVisible();
      await expect(it.page.locator('.verdict')).toHaveAttribute('data-short', 'false');
      for (const words of ['planning aid, not a survey', 'utility-locating service', 'unsupported bank']) {
        await expect(it.page.locator('.cautions')).toContainText(words);
      }
      await it.page.getByText('The yard today', { exact: true }).first().click();
      await expect(it.page.getByRole('img', { name: 'The yard as it is' })).toBeVisible();
      await expect(it.page.getByRole('img', { name: /^The yard with / })).toBeHidden();
    });
    await test.step('a hand turns it, the wheel scrolls until it is in hand', async () => {
      const canvas = it.page.locator('.space-canvas');
      await canvas.scrollIntoViewIfNeeded();
      const { x, y, width, height } = (await canvas.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
      await it.page.mouse.move(x + width / 2, y + height / 2);
      const scrolled = await it.page.evaluate(() => scrollY);
      await it.page.mouse.wheel(0, -120);
      await expect.poll(() => it.page.evaluate(() => scrollY)).not.toBe(scrolled);
      await it.page.mouse.wheel(0, 120);
      await expect.poll(() => it.page.evaluate(() => scrollY)).toBe(scrolled);
      await looksOtherwise(it.page, async () => {
        await it.page.mouse.down();
        await it.page.mouse.move(x + width / 2 + 90, y + height / 2 + 20, { steps: 4 });
        await it.page.mouse.up();
      });
      await expect(canvas).toBeFocused();
    });
    await test.step('keys turn it', async () => {
      for (const key of ['ArrowLeft', 'ArrowUp', '+']) await looksOtherwise(it.page, () => it.page.keyboard.press(key));
    });
    await test.step('stages follow, and it is cut open', async () => {
      const stage = it.page.getByRole('button', { name: 'Dug', exact: true });
      await looksOtherwise(it.page, () => stage.click());
      await expect(stage).toHaveAttribute('aria-pressed', 'true');
      await expect(it.page.locator('.stage')).toContainText('The hole is dug');
      await looksOtherwise(it.page, () => it.page.getByRole('button', { name: 'Cut open' }).click());
    });
    expect(await faults(it.page)).toEqual([]);
    expect(it.asked.filter((url) => !url.startsWith('data:'))).toEqual([]);
    expect(it.broken).toEqual([]);
    await it.close();
    await test.step('on a phone, in the dark', async () => {
      const phone = await opened(browser, path, { viewport: { width: 390, height: 844 }, hasTouch: true, colorScheme: 'dark' });
      await turning(phone.page);
      expect(await faults(phone.page)).toEqual([]);
      expect(await smallTargets(phone.page, 'body')).toEqual([]);
      for (const label of await phone.page.locator('.yards label').all()) expect((await label.boundingBox())?.height).toBeGreaterThanOrEqual(44);
      expect(await phone.page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
      await phone.close();
    });
  });
}

/** A demo whose every name is out to run something, with a shell that stands where it cannot. */
function hostile(): string {
  const site = JSON.parse(demoText('level-suburban.json')) as {
    name: string;
    features: { name?: string }[];
    placement: { at: [number, number] };
    taken?: unknown[];
  };
  site.name = HOSTILE;
  for (const it of site.features) it.name = HOSTILE;
  site.placement.at[1] += 12;
  const content = { 'title-block': { lines: [HOSTILE, 'Invented Pools'], cautions: [HOSTILE] } };
  site.taken = [{ book: 'b', edition: 1, on: '2026-01-02', entry: { id: 't', name: 'Title', content } }];
  return JSON.stringify(site);
}

test('names that are out to run something are text, what falls short is told, and scripts and WebGL may be off', async ({ page, browser }) => {
  await openDemo(page, 'level-suburban.json', 'as left');
  await openFile(page, hostile());
  await openSend(page);
  await expect(view(page).getByRole('heading', { level: 2 })).toHaveText(HOSTILE);
  const short = await view(page).locator('.shown-against li').allTextContents();
  expect(short.length).toBeGreaterThan(0);
  const { path } = await saved(page, '3D page', 'send-hostile.html');
  await saved(page, 'Picture', 'send-hostile.png');

  await test.step('as text', async () => {
    const it = await opened(browser, path);
    await turning(it.page);
    await expect(it.page.getByRole('heading', { level: 1 })).toHaveText(HOSTILE);
    await expect(it.page.locator('address b')).toHaveText(HOSTILE);
    await expect(it.page.locator('.cautions li').last()).toHaveText(HOSTILE);
    await expect(it.page.locator('.against li')).toHaveText(short);
    await expect(it.page.locator('.verdict')).toHaveAttribute('data-short', 'true');
    expect(await it.page.title()).toBe(HOSTILE);
    expect(await it.page.locator('img').count()).toBe(1);
    expect(it.asked.filter((url) => !url.startsWith('data:'))).toEqual([]);
    expect(it.broken).toEqual([]);
    expect(await faults(it.page)).toEqual([]);
    await it.close();
  });
  await test.step('where nothing draws in three dimensions the picture stays', async () => {
    const off = () => void (HTMLCanvasElement.prototype.getContext = () => null);
    const it = await opened(browser, path, {}, off);
    await expect(it.page.locator('.space-box img')).toBeVisible();
    await expect(it.page.getByRole('status')).toContainText('The picture shows the same');
    await expect(it.page.locator('canvas, .space-tools, .choices button')).toHaveCount(0);
    expect(await faults(it.page)).toEqual([]);
    await it.close();
  });
  await test.step('without scripts it is a page to read, with the yard as it is one tap away', async () => {
    const it = await opened(browser, path, { javaScriptEnabled: false });
    await expect(it.page.locator('.space-box img')).toBeVisible();
    await expect(it.page.locator('.against li').first()).toBeVisible();
    await expect(it.page.locator('noscript p')).toBeVisible();
    await it.page.getByText('The yard today', { exact: true }).first().click();
    await expect(it.page.locator('figure.yard-1')).toBeVisible();
    await expect(it.page.locator('figure.yard-0')).toBeHidden();
    await it.close();
  });
  await test.step('nothing but its own script runs in it', async () => {
    const it = await opened(browser, path);
    await it.page.evaluate(() => {
      const other = document.createElement('script');
      other.textContent = 'document.title = "another script ran"';
      document.body.append(other);
    });
    expect(await it.page.title()).toBe(HOSTILE);
    await it.close();
  });
});

test('what the 3D page needs is kept for a yard without a signal', async ({ page }) => {
  await page.goto('./');
  const worker = await (await page.request.get('./sw.js')).text();
  for (const part of [/later\/space-turned-[\w-]+\.js/, /later\/still-[\w-]+\.js/]) expect(worker).toMatch(part);
});

test('where the device shares files it is offered, and a tap that came too late is asked for again', async ({ page }) => {
  await page.addInitScript(() => {
    const shared: string[] = [];
    let late = true;
    Object.assign(window, { shared });
    Object.assign(navigator, {
      canShare: ({ files }: { files: File[] }) => !files[0]?.name.endsWith('.html'),
      share: async ({ files }: { files: File[] }) => {
        const [file] = files;
        if (late) {
          late = false;
          throw new DOMException('no tap', 'NotAllowedError');
        }
        shared.push(`${file?.name} ${file?.type} ${String((file?.size ?? 0) > 10_000)}`);
      },
    });
  });
  await openDemo(page, 'level-suburban.json', 'as left');
  await openSend(page);
  await expect(view(page).getByRole('button', { name: /^Share the/ })).toHaveCount(2);
  const share = view(page).getByRole('button', { name: 'Share the picture' });
  await share.click();
  await expect(view(page).locator('.send-told')).toHaveText('It is ready: tap Share once more.');
  await share.click();
  const shared = () => page.evaluate(() => Reflect.get(window, 'shared') as string[]);
  await expect.poll(shared).toEqual([expect.stringMatching(/level-suburban-lot-yard\.png image\/png true$/)]);
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });
    test('what is sent is in reach', async ({ page }) => {
      await openDemo(page, 'sloping-hillside.json', 'as left');
      await openSend(page);
      await expect(view(page).getByRole('button', { name: '3D page' })).toBeInViewport();
      expect(await faults(page)).toEqual([]);
      if (hasTouch) expect(await smallTargets(page, '.send')).toEqual([]);
      await page.screenshot({ path: join(RESULTS, `send-${name}.png`) });
    });
  });
}
