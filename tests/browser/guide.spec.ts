// The guided first site: from nothing to a placed, priced and named job by its hints, with a finger on the phone and a
// mouse at the desk.
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { finger, mouse } from './hand.ts';
import { SCREENS } from './screens.ts';
import { firstVisit, settled, shellOnScreen, standing } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');

for (const screen of SCREENS) {
  test.describe(screen.name, () => {
    test.use({ viewport: screen.viewport, hasTouch: screen.hasTouch, isMobile: screen.hasTouch });

    test('hints lead from a lot to a named job', async ({ page }) => {
      await firstVisit(page);
      await page.getByRole('button', { name: 'Show me on a first site' }).click();
      const guide = page.getByRole('region', { name: 'First site' });
      await expect(guide).toContainText('1 of 8');
      await page.screenshot({ path: join(RESULTS, `guide-${screen.name}.png`) });
      expect(await faults(page)).toEqual([]);
      expect(await smallTargets(page, '.guide')).toEqual([]);
      await page.locator('.shell').first().click();
      await expect(guide).toContainText('2 of 8');
      await settled(page);

      const before = await standing(page);
      const hand = screen.hasTouch ? await finger(page) : mouse(page);
      const at = await shellOnScreen(page);
      await hand.down(at);
      await hand.to({ x: at.x + 30, y: at.y - 20 });
      await hand.up();
      await settled(page);
      expect((await standing(page)).at).not.toEqual(before.at);
      await expect(guide).toContainText('3 of 8');
      await page.locator('.plan-canvas').focus();
      await page.keyboard.press(']');
      await settled(page);
      if (!(await guide.innerText()).includes('4 of 8')) await guide.getByRole('button', { name: 'Skip' }).click();
      await expect(guide).toContainText('4 of 8');
      await guide.getByRole('button', { name: 'Skip' }).click();
      await guide.getByRole('button', { name: 'Open the step Dig' }).click();
      await expect(page.locator('.panel')).toBeVisible();
      await guide.getByRole('button', { name: 'Open takeoff and cost' }).click();
      await page.getByRole('dialog', { name: 'Takeoff and cost' }).getByRole('button', { name: 'Close' }).last().click();
      await expect(guide).toContainText('7 of 8');
      await guide.getByRole('button', { name: 'Show it' }).click();
      await page.getByRole('dialog', { name: 'Homeowner’s view' }).getByRole('button', { name: 'Back to the plan' }).click();
      await expect(guide).toContainText('8 of 8');
      const name = page.getByRole('textbox', { name: 'Name of the job' });
      await name.fill('Larch Road');
      await name.press('Enter');
      await expect(guide).toContainText('That is the whole way');
      await guide.getByRole('button', { name: 'Start a job' }).click();
      await expect(page.locator('.welcome')).toBeVisible();
      await expect(guide).toHaveCount(0);
    });
  });
}
