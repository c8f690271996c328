// Pictures of the page on the three screens, for people to look at, and the one the README shows: written
// to results/, and into www/screenshots/ where README_PICTURE is set.
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, firstVisit, openDemo, openStep, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');
const README = join(import.meta.dirname, '../../www/screenshots');

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch, deviceScaleFactor: hasTouch ? 2 : 1 });

    test('first sheet', async ({ page }) => {
      await firstVisit(page);
      await page.screenshot({ path: join(RESULTS, `first-${name}.png`) });
    });

    for (const file of DEMO_SITES) {
      test(file, async ({ page }) => {
        await openDemo(page, file);
        await expect(page.locator('.notice')).toHaveCount(0);
        const site = file.replace('.json', '');
        await page.screenshot({ path: join(RESULTS, `${site}-${name}.png`) });
        for (const step of ['Lot', 'Yard', 'Ground', 'Shell', 'Dig'] as const) {
          await openStep(page, step);
          await page.screenshot({ path: join(RESULTS, `${site}-${step.toLowerCase()}-${name}.png`) });
        }
      });
    }
  });
}

test('the picture of the README', async ({ page }) => {
  await openDemo(page, DEMO_SITES[0] ?? '');
  await settled(page);
  const folder = process.env['README_PICTURE'] ? README : RESULTS;
  await page.screenshot({ path: join(folder, 'plan-1280x800.png') });
});
