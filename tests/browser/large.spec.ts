// A site larger than anybody draws by hand is worked on as any other: the ledger lists what is read and counts the rest.
import { expect, test } from '@playwright/test';
import { mouse } from './hand.ts';
import { largeSite } from './large_site.ts';
import { openDemo, openFile, settled, shellOnScreen } from './site.ts';

test('of many hundred clearances those that press are listed, more when asked for, and found by name', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  await openFile(page, largeSite(), 'large.json');
  const all = await page.evaluate(() => window.bench.ask((p) => p.clearances().length, 0));
  expect(all).toBeGreaterThan(1000);
  const counted = await page.locator('.clearance-group .head-count').allInnerTexts();
  expect(counted.reduce((sum, it) => sum + Number(it), 0)).toBe(all);
  const listed = await page.locator('.clearance').count();
  expect(listed).toBeLessThan(120);

  const { x, y } = await shellOnScreen(page);
  const hand = mouse(page);
  const before = await page.locator('.clearance-room').first().innerText();
  await hand.down({ x, y });
  await hand.to({ x: x + 12, y: y + 6 });
  await settled(page);
  await expect(page.locator('.clearance-room').first()).not.toHaveText(before);
  await hand.up();

  await page.locator('.clearance-group .more').last().click();
  await expect.poll(() => page.locator('.clearance').count()).toBeGreaterThan(listed);
  await page.keyboard.press('/');
  await page.keyboard.type('Rule 40');
  await page.keyboard.press('Enter');
  await expect(page.locator('.clearance[data-open="true"]:focus')).toHaveCount(1);
});
