// No fault of access on any screen, in any step; every target is large enough for the hand at it.
import { expect, test } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, firstVisit, openDemo, openStep, settled } from './site.ts';

const STEPS = ['Lot', 'Yard', 'Ground', 'Shell', 'Dig'] as const;

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('the first sheet', async ({ page }) => {
      await firstVisit(page);
      expect(await faults(page)).toEqual([]);
      expect(await smallTargets(page)).toEqual([]);
    });

    test('the plan, the ledger, and every step with all of it open', async ({ page }) => {
      test.setTimeout(300_000);
      await openDemo(page, DEMO_SITES[1] ?? '');
      expect.soft(await faults(page), 'the plan and the ledger').toEqual([]);
      for (const step of STEPS) {
        await openStep(page, step);
        await page.locator('.panel details').evaluateAll((all) => {
          for (const it of all) (it as HTMLDetailsElement).open = true;
        });
        await settled(page);
        expect.soft(await faults(page), step).toEqual([]);
        expect.soft(await smallTargets(page), step).toEqual([]);
      }
    });

    test('a working and the report', async ({ page }) => {
      await openDemo(page, DEMO_SITES[2] ?? '');
      const pull = page.getByRole('button', { name: 'Show the whole ledger' });
      if (await pull.isVisible()) await pull.click();
      await page.locator('.quantity').first().click();
      expect(await faults(page), 'a working').toEqual([]);
      await page.locator('.menu > summary').click();
      await page.getByRole('button', { name: 'Report' }).click();
      expect(await faults(page), 'the report').toEqual([]);
    });

    test('the verdict never leaves, and nothing is wider than the screen', async ({ page }) => {
      await openDemo(page, DEMO_SITES[0] ?? '');
      for (const step of STEPS) {
        await openStep(page, step);
        await expect(page.locator('.band-verdict')).toBeInViewport({ ratio: 1 });
        await expect(page.locator('.band-figure[data-key="least-room"]')).toBeInViewport({ ratio: 1 });
        // On a phone the open step and the ledger take turns.
        if (viewport.width >= 720) {
          await expect(page.locator('.verdict h2')).toBeInViewport({ ratio: 1 });
          await expect(page.locator('.clearance').first()).toBeInViewport();
        }
        await expect(page.locator('.plan-canvas')).toBeInViewport();
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(wide).toBeLessThanOrEqual(0);
      }
    });
  });
}
