// The lot by hand: every side typed without a pointer, kinds from a tap on the street, corners, north, closure.
import { expect, test, type Page } from '@playwright/test';
import { finger, mouse, type Hand } from './hand.ts';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, onScreen, openDemo, openStep, reportJson, savedText, settled } from './site.ts';

interface Course {
  kind: string;
  shape: { line?: { bearing: number; distance: number }; curve?: { turn: string } };
  monument?: { kind: string; state: string; note?: string };
}

interface Lot {
  start: [number, number];
  courses: Course[];
  closing_ratio: number;
  basis?: { north: string; true_north?: number };
}

const lotOf = async (page: Page): Promise<Lot> => (JSON.parse(await savedText(page)) as { lot: Lot }).lot;
const kinds = async (page: Page): Promise<string[]> => (await lotOf(page)).courses.map((it) => it.kind);

async function openLot(page: Page): Promise<void> {
  await openDemo(page, 'level-suburban.json');
  await openStep(page, 'Lot');
}

test.describe('without a pointer', () => {
  test('a whole lot is typed, side after side', async ({ page }) => {
    await openLot(page);
    await page.getByText('Re-enter all courses').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await expect(page.getByRole('button', { name: 'Empty the list' })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(page.getByLabel('Next side')).toBeFocused();
    const before = (await lotOf(page)).courses.length;
    for (const side of [
      'N 0 E 100',
      'curve right R=25 L=39.27 chord bearing N 45 E',
      'due East seventy-five feet',
      'S 0-00-00 E 125.00\'',
    ]) {
      await page.keyboard.type(side);
      await expect(page.getByRole('button', { name: 'Add', exact: true })).toBeEnabled();
      await page.keyboard.press('Enter');
      await expect(page.getByLabel('Next side')).toHaveValue('');
    }
    await expect(page.getByText('Not in use yet.')).toBeVisible();
    expect((await lotOf(page)).courses).toHaveLength(before);
    await page.keyboard.type('West 100');
    await expect(page.getByRole('button', { name: 'Add', exact: true })).toBeEnabled();
    await page.keyboard.press('Enter');
    await expect(page.getByText('Not in use yet.')).toHaveCount(0);
    const lot = await lotOf(page);
    expect(lot.courses).toHaveLength(5);
    expect(lot.courses[1]?.shape.curve?.turn).toBe('right');
    await expect(page.getByLabel('Closure of the lot')).toContainText('Precision1:');

    // One bearing is mended in its own box, by keys alone.
    const card = page.locator('.side').nth(3);
    await card.locator('summary').focus();
    await page.keyboard.press('Enter');
    await card.getByLabel('Distance').focus();
    await page.keyboard.type('125.10');
    await page.keyboard.press('Enter');
    await expect(page.getByText('The courses do not close within 1:5,000.')).toBeVisible();
    await page.keyboard.press('Control+z');
    await settled(page);
    expect((await lotOf(page)).courses).toEqual(lot.courses);
  });
});

for (const how of ['mouse', 'finger'] as const) {
  test.describe(`by ${how}`, () => {
    test.use({ hasTouch: how === 'finger', viewport: how === 'finger' ? { width: 1024, height: 768 } : { width: 1280, height: 800 } });
    test('a tap on a side opens its card, and the side on the street tells the kinds', async ({ page }) => {
      await openLot(page);
      const hand: Hand = how === 'mouse' ? mouse(page) : await finger(page);
      const tap = async (at: [number, number]) => {
        const spot = await onScreen(page, at);
        await hand.down(spot);
        await hand.up();
        await settled(page);
      };
      // The east side of the lot, 100 ft by 140 ft.
      const east: [number, number] = [30.48, 38];
      await tap(east);
      const chosen = page.locator('.side[data-chosen]');
      await expect(chosen).toHaveCount(1);
      await expect(chosen.locator('.side-number')).toHaveText('2');
      await expect(chosen.getByRole('button', { name: 'Side', exact: true })).toHaveAttribute('aria-pressed', 'true');

      const before = await kinds(page);
      await chosen.getByRole('button', { name: 'Shared' }).click();
      expect((await kinds(page))[1]).toBe('shared');
      await page.getByRole('button', { name: 'Reset all line kinds' }).click();
      expect(await kinds(page)).toEqual(before);

      await page.getByRole('button', { name: 'Pick it on the plan' }).click();
      await tap(east);
      expect((await kinds(page))[1]).toBe('front');
      // The front has moved; the others were told already, and stay until all are proposed anew.
      expect(await kinds(page)).toEqual(['side', 'front', 'rear', 'side']);
      await page.getByRole('button', { name: 'Reset all line kinds' }).click();
      expect(await kinds(page)).toEqual(['side', 'front', 'side', 'rear']);
    });
  });
}

test('corners, north and the closing ratio are told on the plan and in the report', async ({ page }) => {
  await openLot(page);
  await page.locator('.side').nth(0).locator('summary').click();
  const card = page.locator('.side').nth(0);
  await card.getByLabel('Marked by').selectOption('iron-pipe');
  await card.getByLabel('On the ground').selectOption('found');
  await card.getByLabel('Note on the mark').fill('0.3 ft below grade');
  await card.getByLabel('Note on the mark').press('Enter');
  await page.getByText('North and basis of bearings').click();
  await page.getByLabel('Bearings count from').selectOption('assumed');
  await page.getByLabel('True north lies at').fill('N 12 W');
  await page.getByLabel('True north lies at').press('Enter');
  const lot = await lotOf(page);
  expect(lot.courses[0]?.monument).toEqual({ kind: 'iron-pipe', state: 'found', note: '0.3 ft below grade' });
  expect(lot.basis?.north).toBe('assumed');
  await settled(page);
  await page.screenshot({ path: 'results/lot-corners.png' });
  const report = JSON.parse(await reportJson(page)) as { lot: { monuments: unknown[]; basis: { true_north: unknown } } };
  expect(report.lot.monuments).toHaveLength(1);
  expect(report.lot.basis.true_north).not.toBeNull();

  // The beginning moves, the lot does not.
  const start = lot.start ?? [0, 0];
  await page.locator('.side').nth(1).locator('summary').click();
  await page.locator('.side').nth(1).getByRole('button', { name: 'Begin the description here' }).click();
  const moved = await lotOf(page);
  expect(moved.start).not.toEqual(start);
  expect(moved.courses[0]?.shape).toEqual(lot.courses[1]?.shape);
  expect(moved.courses.at(-1)?.monument?.kind).toBe('iron-pipe');
});

test('a lot that closes poorly says so beside every figure', async ({ page }) => {
  await openLot(page);
  await page.locator('.side').nth(1).locator('summary').click();
  const distance = page.locator('.side').nth(1).getByLabel('Distance');
  await distance.fill('140.20');
  await distance.press('Enter');
  await settled(page);
  await expect(page.locator('.verdict h2')).toContainText('The lot does not close within 1:5,000.');
  const doubtful = page.locator('.clearance', { has: page.getByTitle('the lot closes poorly') }).first();
  await doubtful.click();
  await expect(page.locator('.clearance .row-caveats', { hasText: 'the lot closes poorly' }).first()).toBeVisible();
  await expect(page.getByLabel('Closure of the lot')).toContainText('(?)');
  await page.screenshot({ path: 'results/lot-poor.png' });
  await page.getByLabel('Should close within').fill('1:2,000');
  await page.getByLabel('Should close within').press('Enter');
  expect((await lotOf(page)).closing_ratio).toBe(2000);
  await expect(page.locator('.verdict h2')).not.toContainText('close');
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });
    test(`the step Lot at ${name}`, async ({ page }) => {
      await openDemo(page, DEMO_SITES.at(-1) ?? '');
      await openStep(page, 'Lot');
      await page.screenshot({ path: `results/lot-${name}.png` });
      await page.locator('.side').nth(0).locator('summary').click();
      await settled(page);
      await page.screenshot({ path: `results/lot-card-${name}.png` });
      const wide = await page.locator('.panel-body').evaluate((it) => it.scrollWidth - it.clientWidth);
      expect(wide).toBeLessThanOrEqual(0);
    });
  });
}
