// The module that works out the quantities: loaded once the plan is there, never missing without a word, and made
// anew after a crash.
import { expect, test, type Page } from '@playwright/test';
import { openDemo, plannerLedger, readLedger, reportedQuantities, savedText, settled } from './site.ts';

// Requests have to be seen and broken here, not by the service worker.
test.use({ serviceWorkers: 'block' });

const SITE = 'sloping-hillside.json';
const MODULE = '**/batterboard_estimate*.wasm';

/** The demo site open, whether or not its quantities can be had. */
async function openPlan(page: Page): Promise<void> {
  await page.goto('./?bench');
  await page.locator(`.demo[data-file="${SITE}"]`).click();
  await expect(page.locator('.clearance').first()).toBeVisible();
}

const quantities = (page: Page) => page.getByRole('region', { name: 'Quantities' });

const crash = (page: Page) =>
  page.evaluate(() =>
    window.bench.askDesk(() => {
      throw new WebAssembly.RuntimeError('unreachable');
    }, undefined),
  );

test('the plan stands first, and the quantities say that they are coming', async ({ page }) => {
  let go = (): void => {};
  const asked: string[] = [];
  page.on('request', (request) => request.url().includes('batterboard_estimate') && asked.push(request.url()));
  await page.route(MODULE, async (route) => {
    await new Promise<void>((done) => (go = done));
    await route.continue();
  });
  await openPlan(page);
  await expect(quantities(page)).toContainText('are being worked out');
  await expect.poll(() => asked.length).toBeGreaterThan(0);
  await expect(page.locator('.quantity')).toHaveCount(0);
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowUp');
  go();
  await expect(page.locator('.quantity').first()).toBeVisible();
  await settled(page);
  expect((await readLedger(page)).quantities).toEqual(await reportedQuantities(page));
});

test('where it cannot be had that is said twice, and it can be tried again', async ({ page }) => {
  await page.route(MODULE, (route) => route.abort());
  await openPlan(page);
  const missing = page.locator('.caution[data-check="no-estimate"]');
  await expect(missing).toHaveCount(2);
  await expect(missing.first()).toContainText('cautions');
  await expect(page.locator('.quantity')).toHaveCount(0);
  // The plan goes on without it.
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowUp');
  await expect(page.getByRole('button', { name: /^Undo: / })).toBeVisible();
  await page.unroute(MODULE);
  const again = quantities(page).getByRole('button', { name: 'Try again' });
  const box = await again.boundingBox();
  expect(Math.min(box?.height ?? 0, box?.width ?? 0)).toBeGreaterThanOrEqual(44);
  await again.focus();
  await page.keyboard.press('Enter');
  await expect(page.locator('.quantity').first()).toBeVisible();
  await expect(missing).toHaveCount(0);
  await settled(page);
  expect((await readLedger(page)).quantities).toEqual(await reportedQuantities(page));
});

test('after a crash a fresh one stands at the same site, and nothing is lost', async ({ page }) => {
  await openDemo(page, SITE);
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowUp');
  await settled(page);
  const text = await savedText(page);
  const before = await readLedger(page);
  await crash(page);
  await expect.poll(() => page.evaluate(() => window.bench.askDesk(() => true, false))).toBe(true);
  await settled(page);
  expect(await readLedger(page)).toEqual(before);
  await page.keyboard.press('ArrowUp');
  await settled(page);
  expect(await readLedger(page)).toEqual(await plannerLedger(page));
  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await savedText(page)).toBe(text);
});

test('one that keeps crashing is left alone and told of', async ({ page }) => {
  await openDemo(page, SITE);
  const text = await savedText(page);
  for (let i = 0; i < 3; i += 1) {
    await expect.poll(() => page.evaluate(() => window.bench.askDesk(() => true, false))).toBe(true);
    await crash(page);
  }
  await expect(page.locator('.caution[data-check="no-estimate"]')).toHaveCount(2);
  await expect(page.locator('.quantity')).toHaveCount(0);
  expect(await savedText(page)).toBe(text);
  await quantities(page).getByRole('button', { name: 'Try again' }).click();
  await expect(page.locator('.quantity').first()).toBeVisible();
});
