// Stakes and levels: fixed points chosen by name, the rod read, stakes found in their tables, readings of the yard typed
// back and answered at once; all of it undoes.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { SCREENS } from './screens.ts';
import { openDemo, savedText, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');

interface Staked {
  stakeout?: { fixed?: unknown; backsight?: number; readings?: { of: { bottom?: { place: string; rod: number } }; by?: string }[] };
}

const saved = async (page: Page): Promise<Staked> => JSON.parse(await savedText(page)) as Staked;

async function openStakes(page: Page): Promise<Locator> {
  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'Stakes and levels' }).click();
  const sheet = page.getByRole('dialog', { name: 'Stakes and levels' });
  await expect(sheet).toBeVisible();
  return sheet;
}

async function type(field: Locator, text: string): Promise<void> {
  await field.fill(text);
  await field.press('Enter');
}

test('nothing is staked before a shell is placed, and the sheet says so', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  await page.evaluate(() => window.bench.ask((p) => p.open(JSON.stringify({ ...JSON.parse(p.save()), placement: undefined })), null));
  await page.evaluate(() => window.bench.refresh());
  await expect(await openStakes(page)).toContainText('place a shell first');
});

test('fixed points are proposed, chosen and kept; stakes are found by their line and saved as a list', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  const sheet = await openStakes(page);
  await expect(sheet).toContainText('they are the best pair there is');
  const first = await sheet.getByLabel('Tape A').inputValue();
  await sheet.getByRole('button', { name: 'Keep this pair' }).click();
  expect((await saved(page)).stakeout?.fixed).toBeTruthy();
  await expect(sheet).not.toContainText('Nobody chose them');

  const before = await sheet.locator('[data-stake="H1"] td').first().innerText();
  const other = await sheet.getByLabel('Tape A').locator('option').evaluateAll((all) => all.map((it) => (it as HTMLOptionElement).value));
  const taken = [first, await sheet.getByLabel('Tape B').inputValue()];
  await sheet.getByLabel('Tape A').selectOption(other.find((it) => !taken.includes(it)) ?? '');
  await expect(sheet.locator('[data-stake="H1"] td').first()).not.toHaveText(before);
  await sheet.getByRole('button', { name: /^Use the best pair/ }).click();
  await expect(sheet.locator('[data-stake="H1"] td').first()).toHaveText(before);

  // Of the rim alone.
  await sheet.getByLabel('What they mark').selectOption({ label: 'Rim' });
  await expect(sheet.locator('[data-stake^="H"]')).toHaveCount(0);
  await expect(sheet.locator('[data-stake="R1"]')).toHaveCount(1);
  await expect(sheet).toContainText('lies off the line by');

  // The list for a spreadsheet.
  const [file] = await Promise.all([page.waitForEvent('download'), sheet.getByRole('button', { name: 'Save the stakes as a list' }).click()]);
  expect(readFileSync(await file.path(), 'utf8')).toMatch(/\bH1\b/);
});

test('what is read in the yard is answered at once, by keys alone, and undoes', async ({ page }) => {
  await openDemo(page, 'sloping-hillside.json');
  const sheet = await openStakes(page);
  const readings = (await saved(page)).stakeout?.readings?.length ?? 0;
  expect(readings).toBeGreaterThan(6);
  await expect(sheet.locator('[data-answer="rim"]')).toContainText('out of level');
  await expect(sheet.locator('[data-answer="bottom"] tr', { hasText: 'S9' })).toContainText('Cut');

  await sheet.getByText('Depths along the shell').click();
  const planned = await sheet.locator('[data-station="S9"] td').last().innerText();
  await sheet.getByText('Enter a reading').click();
  const form = sheet.locator('.reading-form');
  await form.getByLabel('Where').selectOption({ label: await form.getByLabel('Where').locator('option', { hasText: /^S9,/ }).innerText() });
  await form.getByRole('button', { name: 'Enter the reading' }).click();
  await expect(form.getByRole('status')).toHaveText('Enter what the rod reads there.');
  await type(form.getByLabel('Rod there'), planned);
  await type(form.getByLabel('Read by'), 'A. Moss');
  await form.getByRole('button', { name: 'Enter the reading' }).focus();
  await page.keyboard.press('Enter');
  await expect(form.getByRole('status')).toHaveText('S9 is entered.');
  await expect(sheet.locator('[data-answer="bottom"] tr', { hasText: 'S9' })).toContainText('On grade');
  const now = (await saved(page)).stakeout?.readings ?? [];
  expect(now.length).toBe(readings + 1);
  expect(now.at(-1)?.by).toBe('A. Moss');
  // The next place stands ready.
  await expect(form.getByLabel('Where')).toHaveValue('S10');

  await page.evaluate(() => window.bench.ask((p) => p.undo(1), 0));
  await page.evaluate(() => window.bench.refresh());
  await expect(sheet.locator('[data-answer="bottom"] tr', { hasText: 'S9' })).toContainText('Cut');
});

for (const screen of SCREENS) {
  test.describe(screen.name, () => {
    test.use({ viewport: screen.viewport, hasTouch: screen.hasTouch });

    test('stakes and levels can be read and touched', async ({ page }) => {
      await openDemo(page, 'sloping-hillside.json');
      const sheet = await openStakes(page);
      for (const head of ['Offset stakes', 'Check diagonals', 'Depths along the shell', 'Enter a reading', 'Readings as typed', 'Tapes, rod']) {
        await sheet.locator('summary', { hasText: head }).click();
      }
      await settled(page);
      await page.screenshot({ path: join(RESULTS, `stakes-${screen.name}.png`) });
      expect(await faults(page)).toEqual([]);
      expect(await smallTargets(page, '.sheet.stakes')).toEqual([]);
      const wide = await sheet.evaluate((it) => it.scrollWidth - it.clientWidth);
      expect(wide, 'nothing but a table is pulled sideways').toBeLessThanOrEqual(1);
    });
  });
}
