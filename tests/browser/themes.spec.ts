// The colors of the page: chosen in the menu and kept, as the device is set otherwise, there before the first painting; no fault of
// access on any sheet in light and in dark, and everything reads in all four.
import { expect, test, type Page } from '@playwright/test';
import { faults } from './access.ts';
import { DEMO_SITES, firstVisit, openDemo, openStep, settled } from './site.ts';

const THEMES = ['light', 'dark', 'strong', 'sunlight'] as const;
const RICH = 'creek-side-deed.json';

/** The page with a theme as this device remembers it. */
async function colored(page: Page, theme: string): Promise<void> {
  await page.addInitScript((name) => localStorage.setItem('colors', JSON.stringify(name)), theme);
}

const theme = (page: Page) => page.locator('html').getAttribute('data-theme');

/** How light the plan is outside the lot, from 0 to 255. */
async function ground(page: Page): Promise<number> {
  await settled(page);
  return page.locator('.plan-canvas').evaluate((it) => {
    const corner = (it as HTMLCanvasElement).getContext('2d')?.getImageData(4, 4, 1, 1).data;
    if (!corner) throw new Error('the plan has no pixels');
    return Math.max(corner[0] ?? 0, corner[1] ?? 0, corner[2] ?? 0);
  });
}

test('colors are chosen in the menu, kept on the device, and the plan follows', async ({ page }) => {
  await openDemo(page, RICH, 'as left');
  expect(await theme(page)).toBe('light');
  expect(await ground(page)).toBeGreaterThan(200);
  await page.locator('.menu > summary').click();
  await page.getByLabel('Colors').selectOption({ label: 'Dark' });
  expect(await theme(page)).toBe('dark');
  expect(await ground(page)).toBeLessThan(90);
  await page.reload();
  await expect(page.locator('.clearance').first()).toBeVisible();
  expect(await theme(page)).toBe('dark');
  expect(await ground(page)).toBeLessThan(90);
  await page.locator('.menu > summary').click();
  await page.getByLabel('Colors').selectOption({ label: 'As the device' });
  expect(await theme(page)).toBe('light');
});

test('nothing chosen: the page is colored as the device is set, and follows it', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await openDemo(page, RICH, 'as left');
  expect(await theme(page)).toBe('dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'light');
  await page.emulateMedia({ colorScheme: 'dark', contrast: 'more' });
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'strong');
  expect(await ground(page)).toBeGreaterThan(200);
});

test('the colors are there before anything is painted, without the page itself', async ({ page }) => {
  await colored(page, 'dark');
  await page.route(/\/assets\/.*\.js$/, (route) => route.abort());
  await page.goto('./');
  expect(await theme(page)).toBe('dark');
  const paper = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  expect(paper).not.toBe('rgb(231, 226, 211)');
});

test('what is remembered and is no choice does nothing', async ({ page }) => {
  await page.addInitScript(() => localStorage.setItem('colors', '{"no": '));
  await firstVisit(page);
  expect(await theme(page)).toBe('light');
});

test('on paper the page is light', async ({ page }) => {
  await colored(page, 'dark');
  await openDemo(page, RICH, 'as left');
  await page.emulateMedia({ media: 'print' });
  const ink = await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--ink').trim());
  expect(ink).toBe('#16222b');
});

test('with the few colors of the device a pressed button is still told', async ({ page }) => {
  await page.emulateMedia({ forcedColors: 'active' });
  await openDemo(page, RICH, 'as left');
  const pressed = page.locator('.units button[aria-pressed="true"]');
  const edge = await pressed.evaluate((it) => getComputedStyle(it).outlineStyle);
  expect(edge).toBe('solid');
});

/** What is opened from the menu, and the dialog that it is. */
const FROM_MENU = [
  ['All jobs', null],
  ['Versions of this job', null],
  ['The company’s book', null],
  ['Bring in a map, list or survey', null],
  ['Write a map, list or survey', null],
  ['Stakes and levels', '.stakes-table'],
  ['Sheets to print', '.page-of-sheet'],
  ['Homeowner’s view', '.shown-picture'],
  ['To send to the homeowner', null],
  ['Report', 'pre'],
  ['Start or open another job', '.demo'],
  ['Keys and gestures', null],
] as const;

async function closeDialog(page: Page): Promise<void> {
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toHaveCount(0);
}

for (const name of ['light', 'dark'] as const) {
  test.describe(name, () => {
    test.describe.configure({ timeout: 300_000 });

    test('the plan and every step with all of it open', async ({ page }) => {
      await colored(page, name);
      await openDemo(page, RICH);
      for (const step of ['Lot', 'Yard', 'Ground', 'Shell', 'Dig'] as const) {
        await openStep(page, step);
        await page.locator('.panel details').evaluateAll((all) => {
          for (const it of all) (it as HTMLDetailsElement).open = true;
        });
        await settled(page);
        expect.soft(await faults(page), step).toEqual([]);
      }
      await page.getByRole('button', { name: 'Section A–A′' }).click();
      await settled(page);
      expect.soft(await faults(page), 'the section').toEqual([]);
    });

    test('every sheet', async ({ page }) => {
      await colored(page, name);
      await openDemo(page, RICH, 'as left');
      for (const [label, inside] of FROM_MENU) {
        await page.locator('.menu > summary').click();
        await page.locator('.menu').getByRole('button', { name: label, exact: true }).click();
        const dialog = page.getByRole('dialog').last();
        await expect(dialog).toBeVisible();
        if (inside) await expect(dialog.locator(inside).first()).toBeVisible({ timeout: 60_000 });
        await settled(page);
        expect.soft(await faults(page), label).toEqual([]);
        await closeDialog(page);
      }
      for (const [label, inside] of [
        ['Takeoff and cost', 'table'],
        ['Compare placements', null],
        ['Find', null],
        ['Pin figures', null],
        ['In the round', '.space-canvas[data-triangles]'],
      ] as const) {
        await page.getByRole('button', { name: label, exact: true }).first().click();
        const dialog = page.getByRole('dialog').last();
        await expect(dialog).toBeVisible();
        if (inside) await expect(dialog.locator(inside).first()).toBeAttached({ timeout: 60_000 });
        await settled(page);
        expect.soft(await faults(page), label).toEqual([]);
        await closeDialog(page);
      }
    });

    test('the first sheet and the guide', async ({ page }) => {
      await colored(page, name);
      await firstVisit(page);
      expect.soft(await faults(page), 'the first sheet').toEqual([]);
      await page.getByRole('button', { name: 'Show me on a first site' }).click();
      await expect(page.getByRole('region', { name: 'First site' })).toBeVisible();
      expect.soft(await faults(page), 'the guide').toEqual([]);
    });
  });
}

for (const name of THEMES) {
  test(`plan and ledger read in ${name}`, async ({ page }) => {
    await colored(page, name);
    for (const site of DEMO_SITES) {
      await openDemo(page, site);
      expect.soft(await faults(page, ['color-contrast']), site).toEqual([]);
    }
  });
}
