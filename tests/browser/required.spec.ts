// What rules ask for beyond a distance: conditions, covered ground, the barrier; and what stays assumed.
import { expect, test, type Page } from '@playwright/test';
import { SCREENS } from './screens.ts';
import { openDemo, openStep, reportJson, settled } from './site.ts';

const LEVEL = 'level-suburban.json';

interface Report {
  shares?: { covered: { after: { value: number }; exceeded: boolean } }[];
  barrier?: { closed: boolean; openings: unknown[] };
  assumed: { what: string; leeway: string | null }[];
}

const report = async (page: Page): Promise<Report> => JSON.parse(await reportJson(page)) as Report;
const panel = (page: Page) => page.locator('#step-panel');
const unfold = (page: Page, name: RegExp | string) => panel(page).locator('summary').filter({ hasText: name }).first().click();

/** Types into a field of the open step as a user does. */
async function fill(page: Page, label: string, text: string): Promise<void> {
  const field = panel(page).getByLabel(label, { exact: true }).locator('visible=true').first();
  await field.fill(text);
  await field.press('Tab');
  await settled(page);
}

test('a rule that applies only under conditions is measured only where they are met, and says so', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openStep(page, 'Lot');
  const rows = page.locator('.clearance');
  const before = await rows.count();
  const card = panel(page).locator('details[data-rule]').first();
  const name = (await card.locator('summary').first().innerText()).split('\n')[0] ?? '';
  await card.locator('summary').first().click();
  await card.locator('summary').filter({ hasText: 'Applies everywhere' }).click();
  await fill(page, 'Only where the dig is deeper than', '30 ft');
  await expect.poll(() => rows.count()).toBeLessThan(before);
  await expect(page.locator('.ledger')).toContainText(`Not measured: "${name}" applies only where the dig is deeper than`);
  await expect(card.locator('summary').filter({ hasText: 'Applies only under conditions (1)' })).toBeVisible();
  await fill(page, 'Only where the dig is deeper than', '1 ft');
  await expect.poll(() => rows.count()).toBe(before);
  await page.keyboard.press('Control+z');
  await settled(page);
  await expect.poll(() => rows.count()).toBeLessThan(before);
});

test('covered ground is held to its share, before and after', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openStep(page, 'Lot');
  await unfold(page, 'Covered ground');
  await unfold(page, 'Add a rule about covered ground');
  await panel(page).getByLabel('Houses and outbuildings').check();
  await panel(page).getByLabel('Water and coping').check();
  await panel(page).getByLabel('Deck and steps').check();
  await fill(page, 'At most', '1%');
  const add = panel(page).getByRole('button', { name: 'Add this rule' }).locator('visible=true');
  await add.click();
  await expect(panel(page)).toContainText('its source');
  await fill(page, 'Source', 'Zoning code 4.2');
  await add.click();
  await settled(page);
  const shares = page.getByRole('region', { name: 'Covered ground' });
  await expect(shares.locator('li')).toHaveAttribute('data-short', 'true');
  await expect(page.locator('.verdict')).toHaveAttribute('data-standing', 'conflict');
  await expect(page.locator('.verdict h2')).toContainText('of the lot is covered, 1.0% may be');
  const told = (await report(page)).shares?.[0]?.covered;
  expect(told?.exceeded).toBe(true);
  await expect(shares.locator('li b')).toHaveText(`${((told?.after.value ?? 0) * 100).toFixed(1)}%`);
  await panel(page).locator('summary').filter({ hasText: 'Covered share of the lot' }).click();
  await fill(page, 'At most', '90%');
  await expect(shares.locator('li')).not.toHaveAttribute('data-short', 'true');
  await expect(page.locator('.verdict')).not.toHaveAttribute('data-standing', 'conflict');
});

test('the barrier is looked at once its figures are entered, and its open places are found', async ({ page }) => {
  await openDemo(page, 'sloping-hillside.json');
  await openStep(page, 'Lot');
  await unfold(page, 'Barrier round the water');
  await fill(page, 'Fences and walls count from a height of', '4 ft');
  await fill(page, 'An opening counts as closed up to', '4 in');
  await fill(page, 'Source', 'Example only, from memory');
  await panel(page).getByRole('button', { name: 'Look at the barrier' }).click();
  await settled(page);
  await expect(page.locator('.ledger')).toContainText('The barrier is open in 3 places');
  await expect(page.locator('.ledger')).toContainText('figures that nobody has confirmed');
  const told = (await report(page)).barrier;
  expect(told?.closed).toBe(false);
  expect(told?.openings).toHaveLength(3);
  await panel(page).getByRole('button', { name: 'Do not look at the barrier' }).click();
  await settled(page);
  expect((await report(page)).barrier).toBeUndefined();
});

for (const screen of SCREENS) {
  test.describe(screen.name, () => {
    test.use({ viewport: screen.viewport, hasTouch: screen.hasTouch });
    test('what stays assumed is listed with how far wrong it may be', async ({ page }) => {
      await openDemo(page, LEVEL);
      const pull = page.locator('.ledger-pull');
      if (await pull.isVisible()) await pull.click();
      await page.locator('.assumed summary').click();
      const list = page.locator('.assumed li');
      const { assumed } = await report(page);
      await expect(list).toHaveCount(assumed.length);
      for (const [index, it] of assumed.entries()) {
        await expect(list.nth(index)).toContainText(it.what);
        if (it.leeway) await expect(list.nth(index).locator('b')).toHaveText(it.leeway);
      }
      expect(assumed.some((it) => it.leeway?.includes('nearer before'))).toBe(true);
    });
  });
}
