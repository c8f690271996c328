// Drawn decks and the finished ground in the section, and the caution of a deck drawn over a structure.
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { faults } from './access.ts';
import { SCREENS } from './screens.ts';
import { demoText, openDemo, openFile, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');

const panel = (page: Page) => page.getByRole('region', { name: 'Section' });

async function open(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Section A–A′' }).click();
  await expect(panel(page)).toBeVisible();
  await settled(page);
}

/** The figures and the line, or the section without them. */
async function more(page: Page): Promise<void> {
  await panel(page).getByText('Figures and line').click();
}

const figure = (page: Page, label: string) =>
  panel(page).locator('.section-figures div').filter({ hasText: label }).first().locator('dd');

/** The line as typed, meters. */
async function typed(page: Page, from: [number, number], to: [number, number]): Promise<void> {
  for (const [name, value] of [
    ['A, to the east', from[0]],
    ['A, to the north', from[1]],
    ['A′, to the east', to[0]],
    ['A′, to the north', to[1]],
  ] as const) {
    const field = panel(page).getByRole('textbox', { name });
    await field.fill(`${value} m`);
    await field.press('Enter');
  }
  await settled(page);
}

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(`a drawn deck on ${name}`, () => {
    test.use({ viewport, hasTouch });

    test('it is cut with its banks', async ({ page }) => {
      await openDemo(page, 'creek-side-deed.json');
      await open(page);
      await more(page);
      // Across terrace and shell.
      await typed(page, [20.1, 17], [21.3, 39]);
      const bank = figure(page, 'bank of ');
      await expect(bank).toHaveText(/^\d/);
      await expect(panel(page).getByRole('img')).toHaveAttribute('aria-label', /bank of (fill, out to its toe|cut, out to its top)/);
      await more(page);
      await panel(page).getByRole('button', { name: '× 2' }).click();
      await settled(page);
      await page.screenshot({ path: join(RESULTS, `section-drawn-${name}.png`) });
      expect(await faults(page)).toEqual([]);
    });
  });
}

test('a deck drawn over the house is told with its share', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  const site = JSON.parse(demoText('level-suburban.json')) as { features: unknown[] };
  const [west, south, east, north] = [18, 17, 23, 21];
  const area = [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
  ];
  site.features.push({ id: 'over', kind: 'deck', shape: { area } });
  await openFile(page, JSON.stringify(site));
  // 5 m by 2.2024 m of the house.
  const told = page.locator('.caution[data-check="deck-over-structure"]').first();
  await expect(told).toContainText('118.5 sq ft');
});
