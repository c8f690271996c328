// What a hand feels: on every demo site, on a large one, and over a large photograph, the shell is dragged about and let go, in the
// built page. Afterwards the same drag is asked of the core alone. Each leaves its figures in results/bench/<site>.json,
// which the task runner holds against the targets and prints.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { photograph } from '../photograph.ts';
import { largeSite } from '../large_site.ts';
import { DEMO_SITES, openDemo, openFile, openStep, shellOnScreen } from '../site.ts';
import { coreAlone } from './core.ts';
import { spread } from './spread.ts';
import { taken, watch } from './watch.ts';

const MOVES = 100;
/** Between two moves of the hand, milliseconds. */
const PAUSE = 20;
/** What the page may still be doing once it is open, and once the hand is gone, milliseconds. */
const REST = 3000;
const RESULTS = join(import.meta.dirname, '../results/bench');

async function measure(page: Page, site: string): Promise<void> {
  await page.waitForTimeout(REST);
  const { x, y } = await shellOnScreen(page);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 2, y);
  await watch(page);
  for (let i = 0; i < MOVES; i += 1) {
    await page.mouse.move(x + 20 * Math.sin(i / 6), y + 15 * Math.cos(i / 5));
    await page.waitForTimeout(PAUSE);
  }
  const moving = await taken(page);
  await page.mouse.up();
  await page.waitForTimeout(REST);
  const after = await taken(page);
  expect(moving.frames.length, 'the shell moved').toBeGreaterThan(MOVES / 4);

  const figures = {
    site,
    frame: spread(moving.frames),
    gap: spread(moving.gaps),
    long_moving: moving.long,
    long_after: after.long,
    core: spread(await coreAlone(page)),
  };
  mkdirSync(RESULTS, { recursive: true });
  writeFileSync(join(RESULTS, `${site}.json`), `${JSON.stringify(figures, null, 2)}\n`);
}

for (const file of DEMO_SITES) {
  test(file, async ({ page }) => {
    await openDemo(page, file);
    await measure(page, file.replace('.json', ''));
  });
}

test('a large site', async ({ page }) => {
  await openDemo(page, DEMO_SITES[0] ?? '');
  await openFile(page, largeSite(), 'large.json');
  await measure(page, 'a large site');
});

test('with a photograph under the plan', async ({ page }) => {
  await openDemo(page, DEMO_SITES[0] ?? '');
  await openStep(page, 'Lot');
  await page.getByText('Picture under the plan').click();
  const buffer = await photograph(page);
  await page.locator('input[data-picture="file"]').setInputFiles({ name: 'aerial.jpg', mimeType: 'image/jpeg', buffer });
  await expect(page.locator('.picture-words')).toContainText('aerial.jpg', { timeout: 30_000 });
  await page.getByRole('button', { name: 'Close this step' }).click();
  await measure(page, 'with a photograph');
});
