// The worker that answers what takes long: low and high come when it has them, the plan never waits for it, and one
// that cannot be had, crashes or is ended costs nothing but a second try.
import { expect, test, type Page } from '@playwright/test';
import { openDemo, plannerLedger, readLedger, reportedQuantities, savedText, settled } from './site.ts';

// Requests have to be seen and broken here, not by the service worker.
test.use({ serviceWorkers: 'block' });

const SITE = 'sloping-hillside.json';
const WORKER = /\/worker-[^/]*\.js$/;

const quantities = (page: Page) => page.getByRole('region', { name: 'Quantities' });
const range = (page: Page) => page.locator('.quantity[data-key="bank-cut"] .quantity-range');
const RANGE = /^[0-9.,]+ to [0-9.,]+ cu yd$/;

test('plan and quantities stand first, low and high come after', async ({ page }) => {
  let go = (): void => {};
  await page.route(WORKER, async (route) => {
    await new Promise<void>((done) => (go = done));
    await route.continue();
  });
  await openDemo(page, SITE);
  await expect(page.locator('.quantity').first()).toBeVisible();
  await expect(range(page)).toHaveCount(0);
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowUp');
  await settled(page);
  expect(await readLedger(page)).toEqual(await plannerLedger(page));
  go();
  await expect(range(page)).toHaveText(RANGE);
  expect((await readLedger(page)).quantities).toEqual(await reportedQuantities(page));
});

test('where it cannot be had that is said, and it can be tried again', async ({ page }) => {
  await page.route(WORKER, (route) => route.abort());
  await openDemo(page, SITE);
  const missing = page.locator('.caution[data-check="no-ranges"]');
  await expect(missing).toContainText('could not be calculated');
  await expect(page.locator('.quantity').first()).toBeVisible();
  // Everything else goes on without it.
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowUp');
  await expect(page.getByRole('button', { name: /^Undo: / })).toBeVisible();
  await expect(missing).toHaveCount(1);
  await page.unroute(WORKER);
  const again = quantities(page).getByRole('button', { name: 'Try again' });
  const box = await again.boundingBox();
  expect(Math.min(box?.height ?? 0, box?.width ?? 0), 'large enough for a mouse').toBeGreaterThanOrEqual(32);
  await again.focus();
  await page.keyboard.press('Enter');
  await expect(range(page)).toHaveText(RANGE);
  await expect(missing).toHaveCount(0);
});

test('after a crash a fresh one answers, and nothing is lost', async ({ page }) => {
  await openDemo(page, SITE);
  await expect(range(page)).toHaveText(RANGE);
  const text = await savedText(page);
  const before = await readLedger(page);
  const words = await range(page).innerText();
  await page.evaluate(() => window.bench.stopWorker());
  expect(await readLedger(page)).toEqual(before);
  expect(await range(page).innerText()).toBe(words);
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowUp');
  await expect(range(page)).toHaveText('low and high when you let go');
  await expect(range(page)).toHaveText(RANGE);
  await expect(range(page)).not.toHaveText(words);
  await page.keyboard.press('Control+z');
  await expect(range(page)).toHaveText(words);
  expect(await savedText(page)).toBe(text);
});

test('a report that is cut off says so, and is made at the second try', async ({ page }) => {
  await openDemo(page, SITE);
  await expect(range(page)).toHaveText(RANGE);
  await page.evaluate(() => window.bench.stopWorker());
  await page.route(WORKER, (route) => route.abort());
  await page.locator('.menu > summary').click();
  await page.getByRole('button', { name: 'Report' }).click();
  const report = page.getByRole('dialog', { name: 'Report' });
  await expect(report).toContainText('could not be made');
  await page.unroute(WORKER);
  await report.getByRole('button', { name: 'Try again' }).click();
  await expect(report.locator('pre')).toBeVisible();
});
