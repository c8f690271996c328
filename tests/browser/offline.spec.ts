// Nothing leaves the device: no request to any other host, and after the first visit none is needed.
import { expect, test } from '@playwright/test';
import { DEMO_SITES, keptOnDevice, listEveryClearance, openDemo, openStep, readLedger, savedText, settled } from './site.ts';

// Pages are opened again here, as they are kept on the device.
test.use({ serviceWorkers: 'allow' });

test('no other host is ever asked, and the page works without a connection', async ({ page, context, baseURL }) => {
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));

  const [first = '', second = ''] = DEMO_SITES;
  await openDemo(page, first);
  await expect(page.locator('.foot-offline')).toBeVisible({ timeout: 20_000 });
  const ledger = await readLedger(page);
  const text = await savedText(page);

  await keptOnDevice(page);
  await context.setOffline(true);
  await page.reload();
  await expect(page.locator('.clearance').first()).toBeVisible();
  await listEveryClearance(page);
  await settled(page);
  expect(await savedText(page)).toBe(text);
  expect(await readLedger(page)).toEqual(ledger);
  // What is loaded only when first wanted is there as well.
  await openStep(page, 'Lot');
  await page.getByText('Courses from a deed').click();
  await page.getByLabel('Deed or list of courses').fill('N 0 E 100');
  await expect(page.getByRole('group', { name: 'What was understood' })).toContainText('side 1');
  // Another demo site opens too.
  await page.locator('.menu > summary').click();
  await page.getByRole('button', { name: 'Start or open another job' }).click();
  await page.locator(`.demo[data-file="${second}"]`).click();
  await settled(page);
  expect(await savedText(page)).not.toBe(text);
  await context.setOffline(false);

  const own = new URL(baseURL ?? '').host;
  const others = asked.filter((url) => /^https?:/.test(url) && new URL(url).host !== own);
  expect(asked.length).toBeGreaterThan(5);
  expect(others).toEqual([]);
  expect(faults).toEqual([]);
});

test('the page carries a policy that lets nothing in from elsewhere', async ({ page }) => {
  await page.goto('./');
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  expect(policy).toContain("default-src 'self'");
  expect(policy).not.toContain('unsafe-inline');
  const refused = await page.evaluate(() =>
    fetch('https://example.invalid/').then(
      () => 'answered',
      () => 'refused',
    ),
  );
  expect(refused).toBe('refused');
});
