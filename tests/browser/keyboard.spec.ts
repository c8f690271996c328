// The whole job by keyboard alone: every stop shows where it is, and the plan answers to keys.
import { expect, test, type Page } from '@playwright/test';
import { DEMO_SITES, firstVisit, savedText, settled, standing } from './site.ts';

/** Presses Tab until the focus is on something that matches; fails when it never comes there. */
async function tabTo(page: Page, selector: string, most = 80): Promise<void> {
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((it) => document.activeElement?.matches(it) ?? false, selector)) return;
  }
  throw new Error(`the focus never came to ${selector}`);
}

test('a site is opened, the shell moved, a value set and undone without a pointer', async ({ page }) => {
  await firstVisit(page);
  await tabTo(page, `.demo[data-file="${DEMO_SITES[0]}"]`);
  await page.keyboard.press('Enter');
  await expect(page.locator('.clearance').first()).toBeVisible();
  await settled(page);
  const text = await savedText(page);

  await tabTo(page, '.plan-canvas');
  const outline = await page.locator('.plan-canvas').evaluate((it) => getComputedStyle(it).outlineWidth);
  expect(Number.parseFloat(outline)).toBeGreaterThanOrEqual(2);
  const before = await standing(page);
  await page.keyboard.press('ArrowDown');
  const after = await standing(page);
  expect(after.at[1]).toBeLessThan(before.at[1]);

  const scale = await page.evaluate(() => window.bench.view().scale);
  await page.keyboard.press('+');
  expect(await page.evaluate(() => window.bench.view().scale)).toBeGreaterThan(scale);
  await page.keyboard.press('0');
  await settled(page);
  expect(await page.evaluate(() => window.bench.view().scale)).toBeCloseTo(scale, 9);

  await tabTo(page, '.clearance');
  await expect(page.locator('.clearance').first()).toHaveAttribute('aria-pressed', 'true');
  await tabTo(page, '.quantity');
  await page.keyboard.press('Enter');
  await expect(page.locator('.working')).toBeVisible();

  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await savedText(page)).toBe(text);

  await tabTo(page, '.menu > summary', 200);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Escape');
  await expect(page.locator('.menu')).not.toHaveAttribute('open');
});

test('the verdict is spoken once it has settled', async ({ page }) => {
  await firstVisit(page);
  await page.locator(`.demo[data-file="${DEMO_SITES[0]}"]`).click();
  await page.locator('.plan-canvas').focus();
  const spoken = page.locator('.verdict [role="status"]');
  const first = await page.locator('.verdict h2').innerText();
  await expect(spoken).toHaveText(first);
  for (let i = 0; i < 30; i += 1) await page.keyboard.press('Shift+ArrowUp');
  await settled(page);
  const now = await page.locator('.verdict h2').innerText();
  expect(now).not.toBe(first);
  await expect(spoken).toHaveText(now);
});
