// The page's folder under any static host: a server that sends files and nothing else, below a path; then without it, with all
// that is fetched later.
import { expect, test } from '@playwright/test';
import { addressOf, host } from './host.ts';
import { DEMO_SITES, keptOnDevice, listEveryClearance, openDemo, readLedger, settled } from './site.ts';

test.use({ serviceWorkers: 'allow' });

test('a plain file server below a path is enough, and after the first visit not even that', async ({ browser }) => {
  const server = await host();
  const context = await browser.newContext({ baseURL: addressOf(server), serviceWorkers: 'allow' });
  try {
    const page = await context.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    await openDemo(page, DEMO_SITES[1] ?? '');
    await expect(page.locator('.foot-offline')).toBeVisible({ timeout: 20_000 });
    const ledger = await readLedger(page);
    await keptOnDevice(page);
    server.closeAllConnections();
    await new Promise((done) => server.close(done));
    await page.reload();
    await expect(page.locator('.clearance').first()).toBeVisible();
    await listEveryClearance(page);
    await settled(page);
    expect(await readLedger(page)).toEqual(ledger);
    // What was never asked for before is there too: the sheets' module, and the job in three dimensions.
    await page.keyboard.press('/');
    await page.keyboard.type('in the round');
    await page.keyboard.press('Enter');
    const canvas = page.locator('canvas.space-canvas');
    await expect(canvas).toBeVisible({ timeout: 30_000 });
    await expect.poll(async () => Number(await canvas.getAttribute('data-triangles'))).toBeGreaterThan(1000);
    expect(faults).toEqual([]);
  } finally {
    await context.close();
    server.close();
  }
});
