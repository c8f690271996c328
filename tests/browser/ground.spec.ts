// The ground: corner heights, a fall toward the rear, tables with a bad line, breaklines drawn and typed,
// contours, the unknown part of the lot and its marks, the benchmark and rod readings, and spots tapped on the
// plan; with a mouse, a finger and keys alone.
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { finger, mouse, type Hand } from './hand.ts';
import { SCREENS } from './screens.ts';
import { onScreen, openDemo, openStep, reportJson, savedText, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');
const LEVEL = 'level-suburban.json';
const FOOT = 0.3048;

type Row = [number, number, number];
interface Saved {
  ground: {
    level?: { elevation: number };
    plane?: { at: [number, number]; elevation: number; fall: number; towards: number };
    spots?: { spots: Row[]; breaklines?: Row[][] };
  };
  contours?: number;
  benchmark?: { name?: string; at?: [number, number]; elevation: number; assumed?: boolean };
  lot: { courses: { kind: string }[] };
}

const saved = async (page: Page): Promise<Saved> => JSON.parse(await savedText(page)) as Saved;
const spots = async (page: Page): Promise<Row[]> => (await saved(page)).ground.spots?.spots ?? [];
const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).click();
const part = (page: Page, name: string) => page.locator('.part > summary', { hasText: name });

async function open(page: Page, file = LEVEL): Promise<void> {
  await openDemo(page, file);
  await openStep(page, 'Ground');
}

async function unfold(page: Page, name: string): Promise<void> {
  const details = part(page, name).locator('..');
  if ((await details.getAttribute('open')) === null) await part(page, name).click();
}

async function type(page: Page, label: string | RegExp, text: string): Promise<void> {
  const box = page.getByLabel(label, typeof label === 'string' ? { exact: true } : {});
  await box.fill(text);
  await box.press('Enter');
}

/** What the plan looks like. */
const picture = (page: Page): Promise<string> =>
  page.evaluate(() => document.querySelector<HTMLCanvasElement>('.plan-canvas')?.toDataURL() ?? '');

async function cornerHeights(page: Page, heights: string[]): Promise<void> {
  await expect(page.getByLabel(/^Corner \d+$/)).toHaveCount(heights.length);
  for (const [i, height] of heights.entries()) await type(page, `Corner ${i + 1}`, height);
  await press(page, 'Use these heights');
}

test('corner heights become spots, and contours are drawn over them', async ({ page }) => {
  await open(page);
  await cornerHeights(page, ['100', "101'6\"", '103.25', '102 ft']);
  await expect(part(page, 'Spots (4)')).toBeVisible();
  expect((await spots(page)).map(([, , z]) => +(z / FOOT).toFixed(6))).toEqual([100, 101.5, 103.25, 102]);
  await settled(page);
  const before = await picture(page);
  await press(page, /^Every /);
  await settled(page);
  expect((await saved(page)).contours).toBeGreaterThan(0);
  expect(await picture(page)).not.toBe(before);
  await type(page, 'A contour every', '0.1 m');
  expect((await saved(page)).contours).toBeCloseTo(0.1, 9);
  await press(page, 'No contours');
  await settled(page);
  expect((await saved(page)).contours).toBeUndefined();
  expect(await picture(page)).toBe(before);
  // One step each way.
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('Control+z');
  await settled(page);
  expect((await saved(page)).ground.level).toBeDefined();
});

test('the ground falls three feet towards the rear, or to a side; without a front it says so', async ({ page }) => {
  await open(page);
  await type(page, 'Elevation where it begins', '100');
  await type(page, 'Falls by', '3 ft');
  await press(page, 'Use this fall');
  await expect(page.getByText(/^Made: 3'/)).toContainText('from the middle of the front line to the middle of the rear');
  const plane = (await saved(page)).ground.plane;
  expect(plane?.elevation).toBeCloseTo(100 * FOOT, 9);
  expect(plane?.fall).toBeGreaterThan(0);
  await page.getByLabel('Falls toward', { exact: true }).selectOption('side 1');
  await press(page, 'Use this fall');
  await expect(page.getByText(/^Made: .*square to the/)).toBeVisible();
  expect((await saved(page)).ground.plane?.towards).not.toBe(plane?.towards);

  await openStep(page, 'Lot');
  await page.locator('.side').nth(0).locator('summary').click();
  await page.getByRole('group', { name: 'Kind of side 1' }).getByRole('button', { name: 'Side', exact: true }).click();
  await openStep(page, 'Ground');
  await type(page, 'Elevation where it begins', '100');
  await type(page, 'Falls by', '3');
  await press(page, 'Use this fall');
  await expect(page.getByText('No side of the lot is its front').first()).toBeVisible();
});

const HALF = '-100 -100 100\n43 -100 100\n43 300 101\n-100 300 101';

test('a table of spots tells its bad line, and is taken once it is mended', async ({ page }) => {
  await open(page);
  await unfold(page, 'Spots');
  const table = page.getByLabel(/^Spots: east, north, elevation/);
  await table.fill('0 0 100\n80 0 1o1\n80 130 99\n0 130 98.5');
  await expect(page.getByText(/^Line 2: elevation/)).toBeVisible();
  await expect(page.getByRole('button', { name: 'Use these spots' })).toBeDisabled();
  await table.fill('0 0 100\n80 0 101\n80 130 99\n0 130 98.5');
  await press(page, 'Use these spots');
  await expect(part(page, 'Spots (4)')).toBeVisible();
  // One by one.
  await press(page, 'Change spot 2');
  await type(page, 'Spot 2, elevation', '101.25');
  expect((await spots(page))[1]?.[2]).toBeCloseTo(101.25 * FOOT, 9);
  await press(page, 'Remove spot 4');
  await expect(part(page, 'Spots (3)')).toBeVisible();
  await press(page, 'Remove spot 3');
  await expect(page.getByText('a surface needs three')).toBeVisible();
  expect(await spots(page)).toHaveLength(3);
});

test('what leans on unknown ground is marked in the ledger and in the report', async ({ page }) => {
  await open(page);
  const marks = page.locator('.row-caveats', { hasText: 'the ground is unknown there' });
  await expect(marks).toHaveCount(0);
  await unfold(page, 'Spots');
  await page.getByLabel(/^Spots: east, north, elevation/).fill(HALF);
  await press(page, 'Use these spots');
  await expect(page.locator('.quantity[data-key="bank-cut"] .row-caveats')).toContainText('the ground is unknown there');
  await expect(page.locator('.quantity[data-key="loads"] .row-caveats')).toBeVisible();
  await expect(page.locator('.quantity[data-key="dig-bottom"] .row-caveats')).toHaveCount(0);
  await expect(page.getByText(/of the lot the ground is unknown/)).toBeVisible();
  const report = await reportJson(page);
  expect(report).toContain('"unknown-ground"');
  expect(report).toContain("of the dig's area and");
});

for (const device of ['mouse', 'finger'] as const) {
  test.describe(device, () => {
    test.use({ hasTouch: device === 'finger', viewport: { width: 1024, height: 768 } });
    const handOf = (page: Page): Promise<Hand> | Hand => (device === 'finger' ? finger(page) : mouse(page));

    async function tap(page: Page, hand: Hand, at: [number, number]): Promise<void> {
      await settled(page);
      const place = await onScreen(page, at);
      await hand.down(place);
      await hand.up();
      await settled(page);
    }

    test('spots are tapped, each with its elevation', async ({ page }) => {
      const hand = await handOf(page);
      await open(page);
      await unfold(page, 'Spots');
      await press(page, 'Mark spots on the plan');
      // A buried line is within a finger's reach of the first place: where it is tapped counts, not what it catches.
      await page.getByRole('region', { name: 'Drawing' }).getByRole('button', { name: 'Snap' }).click();
      const places: [number, number][] = [
        [6, 8],
        [20, 9],
        [13, 30],
        [7, 22],
      ];
      for (const [i, at] of places.entries()) {
        await tap(page, hand, at);
        const bar = page.getByRole('region', { name: 'Elevation of the point' });
        await expect(bar).toBeVisible();
        if (i === 1) {
          await bar.getByLabel('Elevation').fill('high');
          await bar.getByRole('button', { name: 'Take it' }).click();
          await expect(bar.getByRole('alert')).not.toBeEmpty();
        }
        await bar.getByLabel('Elevation').fill(String(100 + i));
        await bar.getByRole('button', { name: 'Take it' }).click();
      }
      await page.keyboard.press('Escape');
      await expect(part(page, 'Spots (4)')).toBeVisible();
      const found = await spots(page);
      expect(found.map(([, , z]) => +(z / FOOT).toFixed(6))).toEqual([100, 101, 102, 103]);
      expect(Math.hypot((found[0]?.[0] ?? 0) - 6, (found[0]?.[1] ?? 0) - 8)).toBeLessThan(1.5);
    });

    test('a breakline is drawn, and its points get their elevations', async ({ page }) => {
      const hand = await handOf(page);
      await open(page);
      await cornerHeights(page, ['100', '100', '104', '104']);
      await unfold(page, 'Breaklines');
      await press(page, 'Draw a breakline');
      await tap(page, hand, [4, 17]);
      await tap(page, hand, [21, 18]);
      await press(page, 'Done');
      for (const height of ['101', '101.5']) {
        await page.getByLabel('Elevation', { exact: true }).fill(height);
        await page.getByLabel('Elevation', { exact: true }).press('Enter');
      }
      await expect(part(page, 'Breaklines (1)')).toBeVisible();
      const lines = (await saved(page)).ground.spots?.breaklines ?? [];
      expect(lines[0]?.map(([, , z]) => +(z / FOOT).toFixed(6))).toEqual([101, 101.5]);
      await press(page, 'Remove breakline 1');
      expect((await saved(page)).ground.spots?.breaklines).toBeUndefined();
    });
  });
}

test('breaklines are typed; two that cross at different elevations are told', async ({ page }) => {
  await open(page);
  await cornerHeights(page, ['100', '100', '104', '104']);
  await unfold(page, 'Breaklines');
  const table = page.getByLabel(/^Breaklines: east, north, elevation/);
  await table.fill('top of bank\n10 20 101\n60 80 102\n\n10 80 103\n60 20');
  await expect(page.getByText(/^Line 6: There are 2 figures/)).toBeVisible();
  await table.fill('top of bank\n10 20 101\n60 80 102\n\n10 80 103\n60 20 103');
  await press(page, 'Use these breaklines');
  await expect(part(page, 'Breaklines (2)')).toBeVisible();
  await expect(page.locator('.panel').getByText(/Breaklines 1 and 2 cross at 101\.50 ft/)).toBeVisible();
});

test('a benchmark with an assumed elevation, and spots by rod readings', async ({ page }) => {
  await open(page);
  await unfold(page, 'Benchmark');
  await press(page, /^Set a benchmark at 100 ft/);
  await page.getByLabel('What it is').fill('nail in the oak');
  await page.getByLabel('What it is').press('Enter');
  await press(page, 'Mark where it is');
  const place = await onScreen(page, [3, 5]);
  await page.mouse.click(place.x, place.y);
  await settled(page);
  const mark = (await saved(page)).benchmark;
  expect(mark).toMatchObject({ name: 'nail in the oak', assumed: true });
  expect(mark?.elevation).toBeCloseTo(100 * FOOT, 9);
  expect(mark?.at?.[0]).toBeDefined();
  await expect(page.locator('.panel').getByText(/assumed datum: nail in the oak 100\.00 ft/)).toBeVisible();
  expect(await reportJson(page)).toContain('nail in the oak, 100.00 ft');

  await unfold(page, 'Spots');
  await page.getByLabel('The last column holds').selectOption('rod');
  await type(page, 'Rod reading on the benchmark (backsight)', '4.32');
  await page.getByLabel(/^Spots: east, north, rod reading/).fill('0 0 5.10\n80 0 3.07\n40 130 6.00');
  await press(page, 'Add these spots');
  await expect(part(page, 'Spots (3)')).toBeVisible();
  expect((await spots(page)).map(([, , z]) => +(z / FOOT).toFixed(6))).toEqual([99.22, 101.25, 98.32]);
  await page.getByLabel('The elevation is assumed').uncheck();
  expect((await saved(page)).benchmark?.assumed ?? false).toBe(false);
});

test('keys alone tell the ground', async ({ page }) => {
  await open(page);
  await page.getByLabel('Corner 1', { exact: true }).focus();
  for (const height of ['100', '101', '104', '103']) {
    await page.keyboard.type(height);
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
  }
  await page.keyboard.press('Enter');
  await expect(part(page, 'Spots (4)')).toBeVisible();
  await page.getByRole('button', { name: 'Mark spots on the plan' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('region', { name: 'Drawing' })).toBeVisible();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Elevation', { exact: true })).toBeFocused();
  await page.keyboard.type('102.5');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('region', { name: 'Drawing' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(part(page, 'Spots (5)')).toBeVisible();
});

test.describe('pictures', () => {
  for (const { name, ...screen } of SCREENS) {
    test(`the ground step at ${name}`, async ({ browser }) => {
      const context = await browser.newContext(screen);
      const page = await context.newPage();
      await open(page);
      await unfold(page, 'Spots');
      await page.getByLabel(/^Spots: east, north, elevation/).fill('-20 -20 100\n60 -20 101\n60 90 105\n-20 90 104\n30 50 103');
      await press(page, 'Use these spots');
      await press(page, /^Every /);
      await settled(page);
      await page.screenshot({ path: join(RESULTS, `ground-${name}.png`) });
      await context.close();
    });
  }
});
