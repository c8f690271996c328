// Pictures of the page on the three screens, for people to look at, and the one the README shows: written
// to results/, and into www/screenshots/ where README_PICTURE is set.
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, demoText, firstVisit, openFile, openStep, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');
const README = join(import.meta.dirname, '../../www/screenshots');

/** What the README shows. */
const SHOWN = { site: DEMO_SITES[0], screen: '1280x800', path: join(process.env['README_PICTURE'] ? README : RESULTS, 'plan-1280x800.png') };

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch, deviceScaleFactor: hasTouch ? 2 : 1 });

    test('the first sheet, and every demo site in every step', async ({ page }) => {
      test.setTimeout(180_000);
      await firstVisit(page);
      await page.screenshot({ path: join(RESULTS, `first-${name}.png`) });
      for (const file of DEMO_SITES) {
        await openFile(page, demoText(file), file);
        const { name: job } = JSON.parse(demoText(file)) as { name: string };
        await expect(page.getByLabel('Name of the job')).toHaveValue(job);
        await expect(page.locator('.clearance').first()).toBeVisible();
        await expect(page.locator('.notice')).toHaveCount(0);
        const open = page.getByRole('button', { name: 'Close this step' });
        if (await open.isVisible()) await open.click();
        await settled(page);
        const site = file.replace('.json', '');
        await page.screenshot({ path: join(RESULTS, `${site}-${name}.png`) });
        if (file === SHOWN.site && name === SHOWN.screen) await page.screenshot({ path: SHOWN.path });
        for (const step of ['Lot', 'Yard', 'Ground', 'Shell', 'Dig'] as const) {
          await openStep(page, step);
          await page.screenshot({ path: join(RESULTS, `${site}-${step.toLowerCase()}-${name}.png`) });
        }
      }
    });
  });
}
