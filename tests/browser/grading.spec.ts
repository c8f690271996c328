// The ground round the deck and the spoil: what is set, what is asked, where the pile goes.
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { onScreen, openDemo, readLedger, settled, standing } from './site.ts';

const SITE = 'sloping-hillside.json';

async function openDig(page: Page): Promise<void> {
  await openDemo(page, SITE);
  await page.getByRole('button', { name: 'Dig' }).first().click();
  await expect(part(page, 'Grading')).toBeVisible();
}

const part = (page: Page, title: string) =>
  page.locator('details.part', { has: page.locator('summary', { hasText: title }) });

async function openPart(page: Page, title: string): Promise<void> {
  const it = part(page, title);
  if ((await it.getAttribute('open')) === null) await it.locator('summary').click();
}

async function quantity(page: Page, key: string): Promise<string> {
  await settled(page);
  return (await readLedger(page)).quantities.find((it) => it.key === key)?.value ?? '';
}

test('the coping that balances is found, set by a button, and is then even', async ({ page }) => {
  await openDig(page);
  await openPart(page, 'Grading');
  const before = await standing(page);
  await page.getByRole('button', { name: 'Find the coping that balances' }).click();
  const answer = page.locator('[data-answer="balance"]');
  await expect(answer).toContainText('All that is dug against all the fill.');
  await expect(answer).toContainText('Deck and banks alone.');
  const axe = await new AxeBuilder({ page }).include('.panel').analyze();
  expect(axe.violations).toEqual([]);
  await answer.getByRole('button', { name: /^Set the coping to/ }).first().click();
  await settled(page);
  const after = await standing(page);
  expect(after.coping).toBeGreaterThan(before.coping);
  // An answer is for the plan it was asked of.
  await expect(answer).toHaveCount(0);
  await page.getByRole('button', { name: 'Find the coping that balances' }).click();
  await expect(answer.locator('.answer-way').first()).toContainText(/0\.[0-2] cu yd (left over|short)/);
  await page.keyboard.press('Control+z');
  expect((await standing(page)).coping).toBe(before.coping);
});

test('what an inch changes is listed, by keyboard alone', async ({ page }) => {
  await openDig(page);
  await openPart(page, 'Grading');
  await page.getByRole('button', { name: 'What an inch changes' }).focus();
  await page.keyboard.press('Enter');
  const rows = page.locator('[data-answer="nudge"] tbody tr');
  await expect(rows.filter({ hasText: 'Bank cut' })).toHaveCount(1);
  const cells = await rows.filter({ hasText: 'Bank cut' }).locator('td').allTextContents();
  const [lower, now, higher] = cells.map((text) => Number.parseFloat(text));
  expect(lower).toBeGreaterThan(now ?? 0);
  expect(now).toBeGreaterThan(higher ?? 0);
  expect(cells[1]).toBe(await quantity(page, 'bank-cut'));
});

test('banks and trucks are typed, and the quantities follow', async ({ page }) => {
  await openDig(page);
  await openPart(page, 'Grading');
  const amount = async (key: string): Promise<number> => Number.parseFloat(await quantity(page, key));
  const fill = await amount('fill');
  const slope = page.getByLabel('Bank slope (run to rise)');
  await slope.fill('2:1');
  await slope.press('Enter');
  // A steeper bank reaches less far and takes less fill; twice the slope it takes more.
  await expect.poll(() => amount('fill')).toBeLessThan(fill);
  expect(await amount('fill')).toBeGreaterThan(0);
  await slope.fill('4:1');
  await slope.press('Enter');
  await expect.poll(() => amount('fill')).toBeGreaterThan(fill);
  const trips = await amount('trips');
  const trucks = page.getByLabel('Trucks', { exact: true });
  await trucks.fill('2');
  await trucks.press('Enter');
  // Two trucks share the trips of one, the odd one included.
  await expect.poll(() => amount('trips')).toBe(Math.ceil(trips / 2));
});

test.describe('on a tablet', () => {
  test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

  test('the pile is placed by a finger, typed to another place, and let lie again', async ({ page }) => {
    await openDig(page);
    const { at } = await standing(page);
    await page.getByRole('button', { name: 'Place the pile by hand' }).tap();
    const spot = await onScreen(page, [at[0], at[1]]);
    await page.touchscreen.tap(spot.x, spot.y);
    const place = page.getByRole('button', { name: 'Place', exact: true });
    if (await place.isVisible()) await place.tap();
    const east = page.getByLabel('Middle of the pile, east');
    await expect(east).toBeVisible();
    await settled(page);
    // On top of the shell it is in the way, and that is said.
    await expect(page.locator('.caution[data-check="pile-in-the-way"]').first()).toBeVisible();
    await east.fill('3 m');
    await east.press('Enter');
    await expect(page.getByRole('button', { name: /^Undo: / })).toBeVisible();
    await page.getByRole('button', { name: 'Place it where it fits' }).tap();
    await expect(east).toHaveCount(0);
  });
});
