// Every figure with its source, what is built in, and what is new.
import { expect, test, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { SCREENS } from './screens.ts';
import { openDemo } from './site.ts';

async function openSources(page: Page): Promise<void> {
  await openDemo(page, 'level-suburban.json');
  await page.keyboard.press('/');
  await page.keyboard.type('sources and');
  await page.keyboard.press('Enter');
  await expect(sheet(page).getByRole('heading', { name: 'Safety standards' })).toBeVisible();
}

const sheet = (page: Page) => page.getByRole('dialog', { name: 'Sources and licenses' });

test('a figure is found with its value, its source and its check', async ({ page }) => {
  await openSources(page);
  await sheet(page).getByLabel('Find a figure').fill('spoil back');
  const rows = sheet(page).getByRole('row').filter({ has: page.getByRole('rowheader') });
  const spoil = rows.filter({ hasText: 'Spoil and machines stand back from the edge' });
  await expect(spoil).toContainText('2.00 ft');
  await expect(spoil).toContainText('29 CFR 1926.651(j)(2)');
  await expect(spoil).toContainText('tests/reference, safety: a pile stands back from the edge');
  await sheet(page).getByLabel('Find a figure').fill('no such thing');
  await expect(sheet(page).getByText('No figure is called so.')).toBeVisible();
  await sheet(page).getByLabel('Find a figure').fill('loose volume clay');
  await expect(rows).toHaveCount(1);
  await expect(rows.first()).toContainText('from memory: look it up');
});

test('what is built in has its license, and the build tells its version', async ({ page }) => {
  await openSources(page);
  const libraries = sheet(page).getByRole('region', { name: 'Built in' }).getByRole('listitem');
  expect(await libraries.count()).toBeGreaterThan(20);
  for (const name of ['geo ', 'lyon ', 'three ', 'preact ']) {
    await expect(libraries.filter({ hasText: new RegExp(`^${name}[0-9]`) })).not.toHaveCount(0);
  }
  for (const text of await libraries.allTextContents()) expect(text).toMatch(/MIT|Apache|BSD|ISC|Zlib|Unicode|OFL|Open Font|Unlicense|BSL|CC0|CC-PDDC/);
  await expect(sheet(page)).toContainText(/batterboard \d+\.\d+\.\d+/);
  await expect(sheet(page).getByRole('region', { name: 'What is new', exact: true })).toContainText('Sources and licenses');
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('it is read without a fault', async ({ page }) => {
      await openSources(page);
      expect(await faults(page)).toEqual([]);
      expect(await smallTargets(page, '.sources')).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
      await page.screenshot({ path: `results/sources-${name}.png` });
      await page.keyboard.press('Escape');
      await expect(sheet(page)).toHaveCount(0);
    });
  });
}
