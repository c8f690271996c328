// Maps and lists of points: chosen, dropped or pasted; looked at; brought in as one step; written and read again.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { finger } from './hand.ts';
import { SCREENS } from './screens.ts';
import { demoText, openDemo, openFile, openStep, savedText, settled } from './site.ts';

const SITE = 'level-suburban.json';
const DATA = join(import.meta.dirname, '../reference/data');
const PARCELS = readFileSync(join(DATA, 'invented_parcels.geojson'), 'utf8');
const POINTS = readFileSync(join(DATA, 'invented_points.csv'), 'utf8');

interface Saved {
  lot: { start?: [number, number]; courses: { shape: { line: { bearing: number; distance: number } } }[] };
  features: { id: string; kind: string; shape: Record<string, unknown> }[];
  ground: { spots?: { spots: number[][]; breaklines?: number[][][] } };
  grid?: { unit: string };
  origin?: unknown;
  benchmark?: { name: string };
}

const saved = async (page: Page): Promise<Saved> => JSON.parse(await savedText(page)) as Saved;

const theSheet = (page: Page): Locator => page.getByRole('dialog', { name: 'Bring in a map, a list or a survey' });

async function openSheet(page: Page): Promise<Locator> {
  await page.locator('.menu summary').click();
  await page.getByRole('button', { name: 'Bring in a map, list or survey' }).click();
  return theSheet(page);
}

async function choose(page: Page, text: string, name: string): Promise<Locator> {
  const sheet = await openSheet(page);
  await page.locator('#map-file').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
  await expect(sheet.getByRole('heading', { name })).toBeVisible();
  return sheet;
}

async function paste(page: Page, text: string): Promise<Locator> {
  const sheet = await openSheet(page);
  await sheet.getByLabel('Or paste it here').fill(text);
  await sheet.getByRole('button', { name: 'Look at what was pasted' }).click();
  return sheet;
}

const bring = (sheet: Locator): Locator => sheet.getByRole('button', { name: 'Bring these in' });

/** Parcel 17 of the invented map becomes the lot. */
async function chooseLot(sheet: Locator): Promise<void> {
  await sheet.getByText('One by one').first().click();
  await sheet.getByLabel(/^17 \(/).selectOption('lot');
  await expect(sheet.getByLabel('House at 17', { exact: false }).first()).toHaveValue('house');
}

function corners({ lot }: Saved): [number, number][] {
  let [x, y] = lot.start ?? [0, 0];
  return lot.courses.map(({ shape }) => {
    const corner: [number, number] = [x, y];
    x += shape.line.distance * Math.sin(shape.line.bearing);
    y += shape.line.distance * Math.cos(shape.line.bearing);
    return corner;
  });
}

function farthest(a: Saved, b: Saved): number {
  const [ours, theirs] = [corners(a), corners(b)];
  expect(ours.length).toBe(theirs.length);
  return Math.max(...ours.map(([x, y]) => Math.min(...theirs.map(([u, v]) => Math.hypot(x - u, y - v)))));
}

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('a map is chosen, looked at, brought in as one step and taken back', async ({ page }) => {
      await openDemo(page, SITE);
      const before = await savedText(page);
      const sheet = await choose(page, PARCELS, 'parcels.geojson');
      await expect(sheet.getByText('There are several parcels.')).toBeVisible();
      await chooseLot(sheet);
      await expect(sheet.getByText('The lot is replaced by one of 5 courses.')).toBeVisible();
      await expect(sheet.getByText('not surveyed')).toBeVisible();
      await sheet.evaluate((it) => (it.scrollTop = 0));
      await page.screenshot({ path: `results/bring-${viewport.width}.png` });
      expect((await new AxeBuilder({ page }).include('.bring').analyze()).violations).toEqual([]);
      await bring(sheet).click();
      await expect(sheet).toHaveCount(0);
      await settled(page);
      await page.screenshot({ path: `results/brought-${viewport.width}.png` });
      const now = await saved(page);
      expect(now.lot.courses).toHaveLength(5);
      // Two beside the one that was there.
      expect(now.features.filter((it) => it.kind === 'fence')).toHaveLength(3);
      expect(now.features.some((it) => it.kind === 'house' && 'compound' in it.shape)).toBe(true);
      expect(now.origin).toBeDefined();
      await page.getByRole('button', { name: 'Undo: bring in' }).click();
      await settled(page);
      expect(await savedText(page)).toBe(before);
    });
  });
}

test('a dropped list of points becomes lot, house, ground and benchmark', async ({ page }) => {
  await openDemo(page, SITE);
  const carried = await page.evaluateHandle((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'survey.csv', { type: 'text/csv' }));
    return data;
  }, POINTS);
  await page.dispatchEvent('.plan-canvas', 'dragover', { dataTransfer: carried });
  await page.dispatchEvent('.plan-canvas', 'drop', { dataTransfer: carried });
  const sheet = theSheet(page);
  await expect(sheet.getByRole('heading', { name: 'survey.csv' })).toBeVisible();
  await expect(sheet.getByLabel('Coordinates are')).toHaveValue('survey-feet');
  await expect(sheet.getByText('645,000 US survey ft north')).toBeVisible();
  await page.screenshot({ path: 'results/bring-list.png' });
  await bring(sheet).click();
  const now = await saved(page);
  expect(now.grid?.unit).toBe('survey-feet');
  expect(now.lot.courses).toHaveLength(4);
  expect(now.ground.spots?.breaklines).toHaveLength(1);
  expect(now.benchmark?.name).toContain('nail');
});

test('what was brought in is written and comes back to the millimetre', async ({ page }) => {
  test.slow();
  await openDemo(page, SITE);
  await bring(await choose(page, POINTS, 'survey.csv')).click();
  const first = await saved(page);
  const write = async (as: string, setUp: (sheet: Locator) => Promise<void>): Promise<string> => {
    await page.locator('.menu summary').click();
    await page.getByRole('button', { name: 'Write a map, list or survey' }).click();
    const sheet = page.getByRole('dialog', { name: 'Write a map, a list or a survey' });
    await sheet.getByLabel('As', { exact: true }).selectOption(as);
    await setUp(sheet);
    const downloading = page.waitForEvent('download');
    await sheet.getByRole('button', { name: 'Save the file' }).click();
    return readFileSync(await (await downloading).path(), 'utf8');
  };
  const list = await write('points', async (sheet) => {
    expect((await new AxeBuilder({ page }).include('.write-out').analyze()).violations).toEqual([]);
    await sheet.getByLabel('Order').selectOption('east-first');
    // Points have no names of things: those on the lot would come in a second time.
    await sheet.getByLabel('What stands on it').uncheck();
  });
  expect(list).toContain('easting (US survey ft),northing (US survey ft)');
  expect(list).toContain('1754321.2500,645012.4800');
  await bring(await choose(page, list, 'again.csv')).click();
  expect(farthest(first, await saved(page))).toBeLessThan(0.001);

  // A map wants a place on the globe: it is asked for, read and laid there.
  const map = await write('geojson', async (sheet) => {
    await sheet.getByRole('button', { name: 'Save the file' }).click();
    await expect(sheet.getByText('The site is not georeferenced.')).toBeVisible();
    await sheet.getByLabel("Latitude and longitude of the site's origin").fill('41°12\'30"N 39°42\'15"W');
    await expect(sheet.getByText('= 41.208333, -39.704167')).toBeVisible();
    await sheet.getByRole('button', { name: 'Use this location' }).click();
    await expect(sheet.getByText('The site is georeferenced.')).toBeVisible();
    await page.screenshot({ path: 'results/write.png' });
  });
  const parts = (JSON.parse(map) as { features: { properties: { role: string } }[] }).features;
  expect(new Set(parts.map((it) => it.properties.role))).toEqual(
    new Set(['lot', 'feature', 'shell', 'dig-edge', 'spot', 'breakline', 'benchmark']),
  );
  await bring(await choose(page, map, 'again.geojson')).click();
  expect(farthest(first, await saved(page))).toBeLessThan(0.001);
  expect((await saved(page)).features.length).toBe(first.features.length);
});

test('a survey is written with its curves, and comes back onto another lot', async ({ page }) => {
  test.slow();
  await openDemo(page, 'creek-side-deed.json');
  const first = await saved(page);
  await page.locator('.menu summary').click();
  await page.getByRole('button', { name: 'Write a map, list or survey' }).click();
  const out = page.getByRole('dialog', { name: 'Write a map, a list or a survey' });
  await out.getByLabel('As', { exact: true }).selectOption('landxml');
  const downloading = page.waitForEvent('download');
  await out.getByRole('button', { name: 'Save the file' }).click();
  const xml = readFileSync(await (await downloading).path(), 'utf8');
  expect(xml).toContain('http://www.landxml.org/schema/LandXML-1.2');
  expect(xml).toContain('name="H1"');

  await openFile(page, demoText(SITE));
  const before = await savedText(page);
  expect((await saved(page)).lot.courses.length).not.toBe(first.lot.courses.length);
  const sheet = await choose(page, xml, 'creek.xml');
  await expect(bring(sheet)).toBeEnabled();
  await page.screenshot({ path: 'results/bring-survey.png' });
  await bring(sheet).click();
  const now = await saved(page);
  const curves = (site: typeof first) => site.lot.courses.filter((it) => JSON.stringify(it).includes('radius')).length;
  expect(now.lot.courses.length).toBe(first.lot.courses.length);
  expect(curves(now)).toBe(curves(first));
  expect(curves(now)).toBeGreaterThan(0);
  expect(now.ground.spots?.breaklines?.length).toBe(first.ground.spots?.breaklines?.length);
  await page.getByRole('button', { name: 'Undo: bring in' }).click();
  expect(await savedText(page)).toBe(before);

  // What is no survey is told, and changes nothing.
  const wrong = await choose(page, '<html><body>no survey</body></html>', 'page.xml');
  await expect(wrong.getByRole('list', { name: 'Import messages' })).toBeVisible();
  await expect(bring(wrong)).toBeDisabled();
});

test('a pasted list is turned round by the order of its coordinates, by keys alone', async ({ page }) => {
  await openDemo(page, SITE);
  const before = await savedText(page);
  await openStep(page, 'Lot');
  await page.getByText('From a map or a list of points').click();
  await page.getByRole('button', { name: 'Bring in a map, list or survey' }).press('Enter');
  const sheet = theSheet(page);
  await sheet.getByLabel('Or paste it here').focus();
  await page.keyboard.insertText('10 0 pin\n10 100 pin\n70 100 pin\n70 0 pin\n');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(sheet.getByText('the northing was taken as the first')).toBeVisible();
  const order = sheet.getByLabel('First number is the');
  await order.focus();
  await page.keyboard.press('ArrowDown');
  await expect(order).toHaveValue('east-first');
  await expect(bring(sheet)).toBeEnabled();
  await bring(sheet).focus();
  await page.keyboard.press('Enter');
  await expect(sheet).toHaveCount(0);
  const now = await saved(page);
  expect(now.lot.start?.[0]).toBeCloseTo(10 * 0.3048, 9);
  expect(now.lot.courses[0]?.shape.line.distance).toBeCloseTo(100 * 0.3048, 9);
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await savedText(page)).toBe(before);
});

test('faults are told with their line or place, and nothing comes in', async ({ page }) => {
  await openDemo(page, SITE);
  const before = await savedText(page);
  const sheet = await paste(page, 'point,northing,easting\n1,5000,2000\n2,five,2000\n3,5010\n');
  await expect(sheet.getByText('Fault, line 3:')).toBeVisible();
  await expect(sheet.getByText('Fault, line 4:')).toBeVisible();
  await expect(bring(sheet)).toBeDisabled();
  await sheet.getByRole('button', { name: 'Choose something else' }).click();
  const bow = '{"type":"Polygon","coordinates":[[[10,50],[10.0002,50.0002],[10.0002,50],[10,50.0002],[10,50]]]}';
  await sheet.getByLabel('Or paste it here').fill(bow);
  await sheet.getByRole('button', { name: 'Look at what was pasted' }).click();
  await expect(sheet.getByText('crosses or touches')).toBeVisible();
  await sheet.getByRole('button', { name: 'Choose something else' }).click();
  await sheet.getByLabel('Or paste it here').fill('{"type":"Polygon",');
  await sheet.getByRole('button', { name: 'Look at what was pasted' }).click();
  await expect(sheet.getByText('The file ends too early')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(sheet).toHaveCount(0);
  expect(await savedText(page)).toBe(before);
});

test.describe('with a finger', () => {
  test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

  test('what is tapped in the picture is the one asked about', async ({ page }) => {
    await openDemo(page, SITE);
    const sheet = await choose(page, PARCELS, 'parcels.geojson');
    await chooseLot(sheet);
    const house = sheet.locator('.bring-thing[data-form="areas"][data-look="thing"] path').first();
    const box = await house.boundingBox();
    if (!box) throw new Error('no house in the picture');
    const hand = await finger(page);
    await hand.down({ x: box.x + 3, y: box.y + box.height / 2 });
    await hand.up();
    await expect(sheet.locator('.bring-group[data-held], .bring-row[data-held]')).toHaveCount(1);
  });
});
