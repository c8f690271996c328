// The takeoff as the estimator uses it: low and high beside each figure, rates typed in place, the cost, a list for
// a spreadsheet, and places side by side.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { finger, mouse } from './hand.ts';
import { expectSameList, expectSameReport } from './program.ts';
import { SCREENS } from './screens.ts';
import { openDemo, savedText, settled, shellOnScreen } from './site.ts';

/** Without rates and kept places, and with both; on ground that falls. */
const SITE = 'creek-side-deed.json';
const PRICED = 'sloping-hillside.json';
const RESULTS = join(import.meta.dirname, 'results');

const sheet = (page: Page, name: string) => page.getByRole('dialog', { name });
const takeoff = (page: Page) => sheet(page, 'Takeoff and cost');
const places = (page: Page) => sheet(page, 'Placements side by side');

async function openSheet(page: Page, button: string): Promise<void> {
  const pull = page.getByRole('button', { name: 'Show the whole ledger' });
  if (await pull.isVisible()) await pull.click();
  await page.getByRole('button', { name: button, exact: true }).click();
}

/** A figure with a unit as a number. */
const number = (text: string): number => Number(text.replace(/[^0-9.-]/g, ''));

async function typeRate(page: Page, line: RegExp, text: string): Promise<void> {
  const field = takeoff(page).getByRole('textbox', { name: line });
  await field.fill(text);
  await field.press('Enter');
  await settled(page);
}

test('rates are typed in place, costs add up, and all of it undoes', async ({ page }) => {
  await openDemo(page, SITE);
  const before = await savedText(page);
  await expect(page.locator('.costs-total')).toHaveCount(0);
  await openSheet(page, 'Takeoff and cost');
  await expect(takeoff(page)).toContainText('No line has a rate yet');

  await typeRate(page, /^Rate of base stone, per short ton/, '38.50');
  const stone = takeoff(page).locator('tr[data-key="base-stone"]');
  const tons = number((await stone.locator('td').first().innerText()).replace('Expected', ''));
  const cost = number(await stone.locator('td').last().innerText());
  // The tons are shown to a tenth.
  expect(Math.abs(cost - tons * 38.5)).toBeLessThanOrEqual(38.5 * 0.0501);
  await typeRate(page, /^Rate of collar concrete/, '165');
  const concrete = number(await takeoff(page).locator('tr[data-key="collar-concrete"] td').last().innerText());
  const total = number(await takeoff(page).locator('.takeoff-expected dd').innerText());
  expect(total).toBeCloseTo(cost + concrete, 2);

  // What is no rate is told, and changes nothing.
  const field = takeoff(page).getByRole('textbox', { name: /^Rate of base stone, per/ });
  await field.fill('a lot');
  await field.press('Enter');
  await expect(field).toHaveAttribute('aria-invalid', 'true');
  await field.press('Escape');
  await expect(field).toHaveValue('38.50');

  // The ledger has the cost beside the quantity, and so has the report.
  await takeoff(page).getByRole('button', { name: 'Close' }).click();
  await expect(page.locator('.costs-total b')).toHaveText(/[0-9]/);
  expect(number(await page.locator('.costs-total b').innerText())).toBeCloseTo(total, 2);
  await expectSameReport(page);

  await openSheet(page, 'Takeoff and cost');
  await field.fill('');
  await field.press('Enter');
  await settled(page);
  await expect(stone.locator('td').last()).toHaveText('');
  await takeoff(page).getByRole('button', { name: 'Close' }).click();
  await page.locator('.plan-canvas').focus();
  for (let i = 0; i < 3; i += 1) await page.keyboard.press('Control+z');
  await settled(page);
  expect(await savedText(page)).toBe(before);
  await expect(page.locator('.costs-total')).toHaveCount(0);
});

test('a rate that does not count stays on its line and says why, in the currency of the site', async ({ page }) => {
  await openDemo(page, PRICED);
  await openSheet(page, 'Takeoff and cost');
  await expect(takeoff(page).locator('.takeoff-expected dd')).toHaveText(/^\$[0-9]/);
  await typeRate(page, /^Rate of base stone, volume/, '$14');
  const line = takeoff(page).locator('tr[data-key="base-stone-volume"]');
  await expect(line.getByRole('textbox')).toHaveValue('14.00');
  await expect(line).toContainText('Not counted: the rate of "Base stone" pays for the same thing');
  await expect(line.locator('td').last()).toHaveText('');
  const currency = takeoff(page).getByRole('textbox', { name: 'Currency of the rates' });
  await currency.fill('CAD');
  await currency.press('Enter');
  await settled(page);
  await expect(takeoff(page).locator('.takeoff-expected dd')).toHaveText(/^CAD [0-9]/);
  // A decimal comma; dollars are another currency now.
  await typeRate(page, /^Rate of water, per gal/, '0,25');
  const water = takeoff(page).getByRole('textbox', { name: /^Rate of water, per gal/ });
  await expect(water).toHaveValue('0.25');
  await water.fill('$0.30');
  await water.press('Enter');
  await expect(water).toHaveAttribute('aria-invalid', 'true');
  await water.press('Escape');
  await line.scrollIntoViewIfNeeded();
  await page.screenshot({ path: join(RESULTS, 'takeoff-not-counted.png') });
  await expectSameReport(page);
});

test('the list for a spreadsheet has every line and is the one of the command line', async ({ page }) => {
  await openDemo(page, SITE);
  await openSheet(page, 'Takeoff and cost');
  await typeRate(page, /^Rate of base stone, per/, '38.50');
  const downloading = page.waitForEvent('download');
  await takeoff(page).getByRole('button', { name: 'Save as CSV' }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toMatch(/-takeoff\.csv$/);
  const list = readFileSync(await download.path(), 'utf8');
  await expectSameList(page, list);
  const keys = await takeoff(page)
    .locator('tr[data-key]')
    .evaluateAll((rows) => rows.map((row) => row.getAttribute('data-key') ?? ''));
  expect(keys.length).toBeGreaterThan(15);
  for (const key of keys) expect(list).toContain(key);
});

for (const device of ['mouse', 'touch'] as const) {
  test.describe(device, () => {
    test.use({ hasTouch: device === 'touch' });

    test('low and high stand beside what is not sure, wait for the hand, and come back', async ({ page }) => {
      await openDemo(page, PRICED);
      const range = page.locator('.quantity[data-key="bank-cut"] .quantity-range');
      await expect(range).toHaveText(/^[0-9.,]+ to [0-9.,]+ cu yd$/);
      const before = await range.innerText();
      const hand = device === 'mouse' ? mouse(page) : await finger(page);
      const start = await shellOnScreen(page);
      await hand.down(start);
      await hand.to({ x: start.x - 20, y: start.y + 24 });
      await settled(page);
      await expect(range).toHaveText('low and high when you let go');
      await hand.up();
      await expect(range).toHaveText(/^[0-9.,]+ to [0-9.,]+ cu yd$/);
      await expect(range).not.toHaveText(before);
      await settled(page);
      await expectSameReport(page);
    });
  });
}

test('a working shows each cause, and both systems of units', async ({ page }) => {
  await openDemo(page, SITE);
  await page.locator('.quantity[data-key="spoil-loose"]').click();
  const doubts = page.locator('.working-doubts');
  await expect(doubts).toContainText('swell of the spoil');
  await expect(doubts).toContainText('together');
  for (const row of await doubts.locator('tbody tr').all()) {
    const [low = 0, expected = 0, high = 0] = (await row.locator('td').allInnerTexts()).map(number);
    expect(low).toBeLessThanOrEqual(expected);
    expect(expected).toBeLessThanOrEqual(high);
  }
  const working = page.locator('.working').first();
  await expect(working).toContainText('cu yd');
  await expect(working).toContainText('m³');
});

test('places are kept, compared, taken in turn and taken out', async ({ page }) => {
  await openDemo(page, SITE);
  const before = await savedText(page);
  await openSheet(page, 'Compare placements');
  await expect(places(page)).toContainText('Nothing is kept yet');
  await places(page).getByRole('button', { name: 'Keep this placement' }).click();
  await settled(page);
  await places(page).getByRole('button', { name: 'Close' }).click();
  await page.locator('.plan-canvas').focus();
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('Shift+ArrowUp');
  await settled(page);
  const moved = await page.locator('.quantity[data-key="bank-cut"] .quantity-value').innerText();
  await openSheet(page, 'Compare placements');
  const row = places(page).getByRole('row', { name: /^Bank cut/ });
  await expect(row.locator('td')).toHaveCount(2);
  const [present = '', kept = ''] = await row.locator('td').allInnerTexts();
  expect(present.trim()).toBe(moved);
  expect(number(kept.split('\n')[0] ?? '')).not.toBe(number(present));

  // Use the kept one: the present one is kept in its stead, in one step that undoes.
  const here = await savedText(page);
  await places(page).getByRole('button', { name: 'Use this placement' }).click();
  await settled(page);
  await expect(row.locator('td').first()).toHaveText((kept.split('\n')[0] ?? '').trim());
  await places(page).getByRole('button', { name: 'Close' }).click();
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await savedText(page)).toBe(here);

  await openSheet(page, 'Compare placements');
  const name = places(page).getByRole('textbox', { name: 'Name of Placement 1' });
  await name.fill('Near the pine');
  await name.press('Enter');
  await expect(places(page).getByRole('columnheader', { name: /Near the pine/ })).toBeVisible();
  await places(page).getByRole('button', { name: 'Remove' }).click();
  await expect(places(page)).toContainText('Nothing is kept yet');
  await places(page).getByRole('button', { name: 'Close' }).click();
  const undo = page.locator('.top .round').first();
  while ((await undo.getAttribute('aria-disabled')) === 'false') {
    await undo.click();
    await settled(page);
  }
  expect(await savedText(page)).toBe(before);
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('the takeoff and the comparison are for everyone', async ({ page }) => {
      await openDemo(page, PRICED);
      await openSheet(page, 'Takeoff and cost');
      await typeRate(page, /^Rate of base stone, per/, '38.50');
      expect(await faults(page), 'the takeoff').toEqual([]);
      expect(await smallTargets(page), 'the takeoff').toEqual([]);
      await page.screenshot({ path: join(RESULTS, `takeoff-${name}.png`) });
      await page.keyboard.press('Escape');
      await expect(takeoff(page)).toHaveCount(0);
      await openSheet(page, 'Compare placements');
      await places(page).getByRole('button', { name: 'Keep this placement' }).click();
      await settled(page);
      expect(await faults(page), 'the comparison').toEqual([]);
      expect(await smallTargets(page), 'the comparison').toEqual([]);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(wide).toBeLessThanOrEqual(0);
      await page.screenshot({ path: join(RESULTS, `compare-${name}.png`) });
    });
  });
}
