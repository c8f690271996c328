// Sheets to print: chosen, shown as they print, moved on their paper, saved as PDF, SVG and picture, printed at their size.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { expectSameSheet } from './program.ts';
import { SCREENS } from './screens.ts';
import { demoText, openDemo, openFile, savedText, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');

async function openSheets(page: Page): Promise<Locator> {
  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'Sheets to print' }).click();
  const sheet = page.getByRole('dialog', { name: 'Sheets to print' });
  await expect(sheet).toBeVisible();
  await made(sheet);
  return sheet;
}

/** Waits until the sheet that is wanted is there. */
async function made(sheet: Locator): Promise<void> {
  await expect(sheet.locator('.paper-view')).toHaveAttribute('aria-busy', 'false');
  await expect(sheet.locator('.pages img').first()).toBeVisible();
}

async function saved(page: Page, button: Locator): Promise<Buffer> {
  const [file] = await Promise.all([page.waitForEvent('download'), button.click()]);
  return readFileSync(await file.path());
}

test('nothing of the sheets is fetched before the first is wanted, and all of it from here', async ({ page }) => {
  const fetched: string[] = [];
  page.on('request', (request) => fetched.push(request.url()));
  await openDemo(page, 'level-suburban.json');
  await settled(page);
  const ofPaper = () => fetched.filter((it) => it.includes('/later/batterboard_web_paper'));
  expect(ofPaper()).toEqual([]);
  await openSheets(page);
  expect(ofPaper().some((it) => it.endsWith('.wasm'))).toBe(true);
  const origin = new URL(page.url()).origin;
  expect(fetched.filter((it) => !it.startsWith(origin) && !it.startsWith('blob:') && !it.startsWith('data:'))).toEqual([]);
});

test('every sheet is made, saved as the program makes it, and what is missing is told', async ({ page }) => {
  await openDemo(page, 'sloping-hillside.json');
  const sheet = await openSheets(page);
  await sheet.getByLabel('Date on the sheet').fill('2026-11-29');
  await sheet.getByLabel('Date on the sheet').press('Enter');
  for (const [name, kind] of [['Permit plan', 'permit'], ['Dig sheet', 'dig'], ['Takeoff', 'takeoff'], ['Homeowner’s sheet', 'home'], ['Record', 'record'], ['Report', 'report']] as const) {
    await sheet.getByRole('radio', { name }).check();
    await made(sheet);
    const bytes = await saved(page, sheet.getByRole('button', { name: 'Save as PDF' }));
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    await expectSameSheet(page, bytes, '--kind', kind, '--day', '2026-11-29');
  }
  const svg = await saved(page, sheet.getByRole('button', { name: 'Save as SVG' }));
  expect(svg.toString()).toContain('<svg ');
  const png = await saved(page, sheet.getByRole('button', { name: 'Save page 1 as a picture' }));
  expect(png.subarray(1, 4).toString()).toBe('PNG');
});

test('the site is opened again from the PDF of a sheet', async ({ page }) => {
  await openDemo(page, 'creek-side-deed.json');
  const text = await savedText(page);
  const sheet = await openSheets(page);
  const bytes = await saved(page, sheet.getByRole('button', { name: 'Save as PDF' }));
  await sheet.getByRole('button', { name: 'Close' }).click();
  await openFile(page, demoText('level-suburban.json'));
  expect(await savedText(page)).not.toBe(text);
  await page.locator('#site-file').setInputFiles({ name: 'plan.pdf', mimeType: 'application/pdf', buffer: bytes });
  await expect.poll(() => savedText(page)).toBe(text);
  await page.locator('#site-file').setInputFiles({ name: 'other.pdf', mimeType: 'application/pdf', buffer: bytes.subarray(0, 4000) });
  await expect(page.getByText('other.pdf was not opened')).toBeVisible();
  expect(await savedText(page)).toBe(text);
});

test('a record without readings says what is missing', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  const sheet = await openSheets(page);
  await sheet.getByRole('radio', { name: 'Record' }).check();
  await expect(sheet).toContainText('Nothing was read back in the yard yet');
  await expect(sheet.getByRole('button', { name: 'Save as PDF' })).toBeDisabled();
});

test('paper, scale and language are chosen; a scale that does not fit stays and is told', async ({ page }) => {
  await openDemo(page, 'creek-side-deed.json');
  const sheet = await openSheets(page);
  await sheet.getByRole('combobox', { name: 'Paper' }).selectOption('letter');
  await made(sheet);
  await sheet.getByRole('combobox', { name: 'Scale' }).selectOption({ label: '1 in = 4 ft' });
  await made(sheet);
  await expect(sheet.locator('.paper-told')).toContainText('1 in = 4 ft');
  await expect(sheet).toContainText('part of the lot lies outside this sheet');
  await sheet.getByRole('radio', { name: 'Dig sheet' }).check();
  await sheet.getByRole('combobox', { name: 'Language' }).selectOption('spanish');
  await made(sheet);
  const svg = await saved(page, sheet.getByRole('button', { name: 'Save as SVG' }));
  expect(svg.toString()).toContain('Hoja de excavación');
});

for (const how of ['mouse', 'keys'] as const) {
  test(`the plan is moved on its paper by ${how}`, async ({ page }) => {
    await openDemo(page, 'level-suburban.json');
    const sheet = await openSheets(page);
    const before = (await saved(page, sheet.getByRole('button', { name: 'Save as SVG' }))).toString();
    const frame = sheet.getByRole('button', { name: /^Move the plan on the sheet/ });
    if (how === 'keys') {
      await frame.focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowDown');
    } else {
      const box = await frame.boundingBox();
      if (!box) throw new Error('the frame is not there');
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width / 2 + 40, box.y + box.height / 2 + 25, { steps: 5 });
      await page.mouse.up();
    }
    const back = sheet.getByRole('button', { name: 'Put the plan back in the middle' });
    await expect(back).toBeVisible();
    await made(sheet);
    const moved = (await saved(page, sheet.getByRole('button', { name: 'Save as SVG' }))).toString();
    expect(moved).not.toBe(before);
    await back.click();
    await made(sheet);
    await expect(back).toHaveCount(0);
    expect((await saved(page, sheet.getByRole('button', { name: 'Save as SVG' }))).toString()).toBe(before);
  });
}

test('what the browser prints has the size of the paper', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  const sheet = await openSheets(page);
  await page.evaluate(() => (window.print = () => {}));
  await sheet.getByRole('button', { name: 'Print', exact: true }).click();
  const printed = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  const boxes = [...printed.matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/g)].map(([, wide, high]) => [Number(wide), Number(high)]);
  const pages = await sheet.locator('.pages img').count();
  expect(boxes.length).toBe(pages);
  for (const [wide = 0, high = 0] of boxes) {
    // Tabloid: 17 by 11 in. Browsers lay out in whole CSS pixels, 0.75 pt each.
    expect(Math.abs(wide - 1224)).toBeLessThan(1);
    expect(Math.abs(high - 792)).toBeLessThan(1);
  }
});

for (const screen of SCREENS) {
  test.describe(screen.name, () => {
    test.use({ viewport: screen.viewport, hasTouch: screen.hasTouch });

    test('the sheets can be read, chosen and touched', async ({ page }) => {
      await openDemo(page, 'creek-side-deed.json');
      const sheet = await openSheets(page);
      expect(await faults(page)).toEqual([]);
      if (screen.hasTouch) expect(await smallTargets(page, '.sheet.paper')).toEqual([]);
      const wide = await sheet.evaluate((it) => it.scrollWidth - it.clientWidth);
      expect(wide).toBeLessThanOrEqual(1);
      await page.screenshot({ path: join(RESULTS, `sheets-${screen.name}.png`) });
      await sheet.getByRole('radio', { name: 'Homeowner’s sheet' }).check();
      await made(sheet);
      await page.screenshot({ path: join(RESULTS, `sheets-home-${screen.name}.png`) });
    });
  });
}
