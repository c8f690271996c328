// Photographs of the yard: taken in, made small without the camera's notes, pinned to the plan by mouse, finger and keyboard,
// turned, described, taken back and kept; on the record sheet, and in nothing that is sent.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { finger, mouse, type Hand } from './hand.ts';
import { photograph } from './photograph.ts';
import { expectSameReport, expectSameSheet } from './program.ts';
import { SCREENS } from './screens.ts';
import { keptOnDevice, onScreen, openDemo, savedText, settled } from './site.ts';
import { TAKEN_SHOWN, yardPhotograph } from './yard_photograph.ts';

const RESULTS = join(import.meta.dirname, 'results');
const DEMO = 'sloping-hillside.json';

// Pages are opened again here, as they are kept on the device.
test.use({ serviceWorkers: 'allow' });
test.describe.configure({ timeout: 120_000 });

interface Kept {
  id: string;
  at: [number, number];
  bearing?: number;
  when?: string;
  stage?: string;
  note?: string;
  width: number;
  height: number;
  data: string;
}

const kept = async (page: Page): Promise<Kept[]> =>
  (JSON.parse(await savedText(page)) as { photographs?: Kept[] }).photographs ?? [];

const sheetOf = (page: Page): Locator => page.getByRole('dialog', { name: 'Photographs' });

async function openPhotos(page: Page): Promise<Locator> {
  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'Photographs', exact: true }).click();
  await expect(sheetOf(page).getByRole('button', { name: 'Add from files' })).toBeVisible();
  return sheetOf(page);
}

type File = { name: string; mimeType: string; buffer: Buffer };

const jpeg = (name: string, buffer: Buffer): File => ({ name, mimeType: 'image/jpeg', buffer });

const choose = (page: Page, files: File[]) => page.locator('input[data-photographs="files"]').setInputFiles(files);

/** Marks a place of the site while something is drawn. */
async function mark(page: Page, hand: Hand, at: [number, number]): Promise<void> {
  const spot = await onScreen(page, at);
  await hand.down(spot);
  await hand.up();
  await settled(page);
}

const pins = (page: Page): Locator => page.locator('.photo-pin');

/** Adds photographs that look from one place to another. */
async function add(page: Page, hand: Hand, places: [[number, number], [number, number]][]): Promise<void> {
  await openPhotos(page);
  const files = await Promise.all(
    places.map(async (_, k) =>
      jpeg(`yard-${k}.jpg`, await yardPhotograph(page, { words: `Yard ${k + 1}`, sky: k % 2 ? '#b8c7d0' : '#8fc1e8', held: k === 1 ? 6 : 1 })),
    ),
  );
  await choose(page, files);
  for (const [from, to] of places) {
    await expect(page.locator('.photo-preview')).toBeVisible();
    await expect(page.locator('.draw-bar')).toContainText('mark where you stood');
    await settled(page);
    await mark(page, hand, from);
    await mark(page, hand, to);
  }
  await expect(page.locator('.draw-bar')).toHaveCount(0);
  await expect(pins(page)).toHaveCount(places.length);
  await settled(page);
}

const middle = async (it: Locator): Promise<{ x: number; y: number }> => {
  const box = await it.boundingBox();
  if (!box) throw new Error('it is not on the screen');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

/** Two places within the lot, apart from the shell, and what each looks at. */
async function lotPlaces(page: Page): Promise<[[number, number], [number, number]][]> {
  const [x0 = 0, y0 = 0, x1 = 1, y1 = 1] = await page.evaluate(() => window.bench.ask((p) => Array.from(p.extent()), [0, 0, 1, 1]));
  const at = (x: number, y: number): [number, number] => [x0 + (x1 - x0) * x, y0 + (y1 - y0) * y];
  return [
    [at(0.3, 0.62), at(0.45, 0.77)],
    [at(0.68, 0.62), at(0.68, 0.45)],
  ];
}

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('are added, pinned, turned, described, taken back and kept', async ({ page }) => {
      await openDemo(page, DEMO, 'as left');
      const hand = hasTouch ? await finger(page) : mouse(page);
      const sheet = await openPhotos(page);
      await expect(sheet).toContainText('There are no photographs yet');
      expect(await smallTargets(page)).toEqual([]);
      expect(await faults(page)).toEqual([]);
      await sheet.getByRole('button', { name: 'Close' }).click();
      const places = await lotPlaces(page);
      await add(page, hand, places);
      await page.screenshot({ path: join(RESULTS, `photos-plan-${name}.png`) });

      const [first, second] = await kept(page);
      await test.step('small, upright, and without the notes of the camera', () => {
        expect(first).toMatchObject({ width: 1600, height: 1200, when: TAKEN_SHOWN });
        expect(second).toMatchObject({ width: 1200, height: 1600, when: TAKEN_SHOWN });
        for (const it of [first, second]) {
          const bytes = Buffer.from(it?.data ?? '', 'base64');
          expect(bytes.length).toBeLessThanOrEqual(250_000);
          const text = bytes.toString('latin1');
          for (const noted of ['Exif', 'INVENTED', '2026:11:30', 'GPS', 'http://ns.adobe.com']) expect(text).not.toContain(noted);
        }
        // A hand that marks a place is led to what is near: a corner, a line.
        const off = (one: number | undefined, other: number) => Math.abs((one ?? Number.NaN) - other);
        expect(off(first?.bearing, Math.atan2(...vector(places[0])))).toBeLessThan(Math.PI / 8);
        expect(off(second?.bearing, Math.PI)).toBeLessThan(Math.PI / 8);
      });

      await test.step('a pin says what it is, and a tap opens it', async () => {
        await expect(pins(page).nth(1)).toHaveAttribute('aria-label', `Photograph 2 of 2. Looking south. ${TAKEN_SHOWN}.`);
        const box = await pins(page).first().boundingBox();
        expect(box?.width).toBeGreaterThanOrEqual(hasTouch ? 44 : 34);
        const spot = await middle(pins(page).first());
        await hand.down(spot);
        await hand.up();
        await expect(sheetOf(page).getByRole('heading', { name: 'Photograph 1 of 2' })).toBeVisible();
        await expect(sheetOf(page).getByRole('img')).toHaveAttribute('alt', /^Photograph 1 of 2\. Looking /);
      });

      await test.step('note, stage, next and previous', async () => {
        const one = sheetOf(page);
        await one.getByLabel('Note').fill('The bank at the shed');
        await one.getByLabel('Note').press('Enter');
        await one.getByLabel('Stage of the work').selectOption('dug');
        await one.getByLabel('Bearing it looks along').fill('90');
        await one.getByLabel('Bearing it looks along').press('Enter');
        await expect(one.locator('figcaption')).toContainText(`Looking east · Dug · ${TAKEN_SHOWN}`);
        await page.screenshot({ path: join(RESULTS, `photos-one-${name}.png`) });
        expect(await smallTargets(page)).toEqual([]);
        expect(await faults(page)).toEqual([]);
        await one.getByRole('button', { name: 'Next photograph' }).click();
        await expect(one.getByRole('heading', { name: 'Photograph 2 of 2' })).toBeVisible();
        await one.getByRole('button', { name: 'Previous photograph' }).click();
        await one.getByRole('button', { name: 'All photographs' }).click();
        await expect(one.locator('.photo-card')).toHaveCount(2);
        await expect(one.locator('.photo-card img').first()).toHaveJSProperty('naturalWidth', 1600);
        await page.screenshot({ path: join(RESULTS, `photos-all-${name}.png`) });
        await one.getByRole('button', { name: 'Close' }).click();
        expect((await kept(page))[0]).toMatchObject({ note: 'The bank at the shed', stage: 'dug' });
      });

      await test.step('a hand moves one, and turns it by its knob', async () => {
        const before = (await kept(page))[1];
        const spot = await middle(pins(page).nth(1));
        await hand.down(spot);
        await hand.to({ x: spot.x - 30, y: spot.y + 10 });
        await hand.up();
        await expect.poll(async () => (await kept(page))[1]?.at[0]).toBeLessThan((before?.at[0] ?? 0) - 0.1);
        await expect(sheetOf(page)).toHaveCount(0);
        const knob = await middle(page.locator('.photo-knob'));
        const pin = await middle(pins(page).nth(1));
        await hand.down(knob);
        await hand.to({ x: pin.x - 60, y: pin.y });
        await hand.up();
        await expect.poll(async () => (await kept(page))[1]?.bearing).toBeCloseTo(1.5 * Math.PI, 1);
        await page.keyboard.press('Control+z');
        await expect.poll(async () => (await kept(page))[1]?.bearing).toBe(before?.bearing);
        await page.keyboard.press('Control+z');
        expect((await kept(page))[1]?.at).toEqual(before?.at);
      });

      await test.step('keys move and turn it, and Enter opens it', async () => {
        const before = (await kept(page))[0];
        await pins(page).first().focus();
        await page.keyboard.press('ArrowUp');
        await page.keyboard.press(']');
        const after = (await kept(page))[0];
        expect(after?.at[1]).toBeGreaterThan(before?.at[1] ?? 0);
        expect(after?.bearing).toBeCloseTo((before?.bearing ?? 0) + (5 * Math.PI) / 180, 6);
        await page.keyboard.press('Enter');
        await expect(sheetOf(page).getByRole('heading', { name: 'Photograph 1 of 2' })).toBeVisible();
      });

      await test.step('one that was removed comes back', async () => {
        await sheetOf(page).getByRole('button', { name: 'Remove the photograph' }).click();
        await expect(sheetOf(page).getByRole('heading', { name: 'Photograph 1 of 1' })).toBeVisible();
        await sheetOf(page).getByRole('button', { name: 'Close' }).click();
        await page.keyboard.press('Control+z');
        await expect(pins(page)).toHaveCount(2);
        expect((await kept(page))[0]?.data).toBe(first?.data);
      });

      await test.step('everything is there when the page is opened again, and can still be taken back', async () => {
        const before = await savedText(page);
        await keptOnDevice(page);
        await page.goto('./?bench');
        await expect(pins(page)).toHaveCount(2);
        expect(await savedText(page)).toBe(before);
        await page.keyboard.press('Control+z');
        await page.keyboard.press('Control+z');
        expect((await kept(page))[0]?.note).toBe('The bank at the shed');
        expect((await kept(page))[0]?.data).toBe(first?.data);
      });
    });
  });
}

const vector = (pair?: [[number, number], [number, number]]): [number, number] => {
  const [[x0, y0], [x1, y1]] = pair ?? [[0, 0], [0, 1]];
  return [x1 - x0, y1 - y0];
};

test('the record sheet shows them as the program makes it, the report lists them, and nothing that is sent has them', async ({ page }) => {
  await openDemo(page, DEMO);
  await add(page, mouse(page), await lotPlaces(page));
  const [first, second] = await kept(page);
  const parts = [first, second].map((it) => it?.data.slice(400, 1000) ?? '');

  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'Sheets to print' }).click();
  const paper = page.getByRole('dialog', { name: 'Sheets to print' });
  await paper.getByLabel('Date on the sheet').fill('2026-11-29');
  await paper.getByLabel('Date on the sheet').press('Enter');
  await paper.getByRole('radio', { name: 'Record' }).check();
  await expect(paper.locator('.paper-view')).toHaveAttribute('aria-busy', 'false');
  await expect(paper.locator('.pages img').first()).toBeVisible();
  const saved = async (button: Locator): Promise<Buffer> => {
    const [file] = await Promise.all([page.waitForEvent('download'), button.click()]);
    return readFileSync(await file.path());
  };
  const record = await saved(paper.getByRole('button', { name: 'Save as PDF' }));
  expect(record.includes(Buffer.from(first?.data ?? '', 'base64'))).toBe(true);
  await expectSameSheet(page, record, '--kind', 'record', '--day', '2026-11-29');
  await page.screenshot({ path: join(RESULTS, 'photos-record.png') });
  await paper.getByRole('button', { name: 'Close' }).click();
  await expectSameReport(page);
  const report = await page.evaluate(() => window.bench.report('json'));
  expect(report).toContain('"photographs"');
  for (const part of parts) expect(report).not.toContain(part);

  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'To send to the homeowner' }).click();
  const view = page.getByRole('dialog', { name: 'Homeowner’s view' });
  await expect(view.locator('.shown-frame')).toHaveAttribute('aria-busy', 'false');
  for (const name of ['3D page', 'PDF page', 'Picture']) {
    const [file] = await Promise.all([
      page.waitForEvent('download', { timeout: 120_000 }),
      view.getByRole('button', { name, exact: true }).click(),
    ]);
    const bytes = readFileSync(await file.path());
    for (const it of [first, second]) {
      expect(bytes.includes(Buffer.from(it?.data ?? '', 'base64').subarray(300, 900))).toBe(false);
      expect(bytes.includes(it?.data.slice(400, 1000) ?? '')).toBe(false);
      expect(bytes.includes(it?.id ?? '')).toBe(false);
    }
    await expect(view.getByRole('button', { name, exact: true })).toBeEnabled();
  }
});

test('what is no photograph is refused in words, noise is made small enough, and who gives up loses nothing', async ({ page }) => {
  await openDemo(page, DEMO);
  await openPhotos(page);
  await choose(page, [{ name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') }]);
  await expect(page.getByText('This is no picture that the browser can read.')).toBeVisible();
  await page.reload();
  await expect(page.locator('.clearance').first()).toBeVisible();
  await openPhotos(page);
  await choose(page, [jpeg('noise.jpg', await photograph(page))]);
  await expect(page.locator('.photo-preview')).toBeVisible({ timeout: 30_000 });
  await page.keyboard.press('Escape');
  const sheet = sheetOf(page);
  await expect(sheet).toContainText('1 photograph has no place yet.');
  expect(await kept(page)).toEqual([]);
  await sheet.getByRole('button', { name: 'Place on the plan' }).click();
  const [[from, to] = [[0, 0], [0, 1]]] = await lotPlaces(page);
  await settled(page);
  await mark(page, mouse(page), from as [number, number]);
  await mark(page, mouse(page), to as [number, number]);
  await expect(pins(page)).toHaveCount(1);
  const [noise] = await kept(page);
  expect(Buffer.from(noise?.data ?? '', 'base64').length).toBeLessThanOrEqual(250_000);
});

test('a full device says so in plain words, and keeps them once there is room', async ({ page }) => {
  await openDemo(page, DEMO);
  await keptOnDevice(page);
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    Object.assign(window, { mend: () => (IDBObjectStore.prototype.put = put) });
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
  });
  await add(page, mouse(page), await lotPlaces(page));
  const bar = page.locator('.keep-bar[data-kind="bad"]');
  await expect(bar).toContainText('storage on this device is full');
  await page.evaluate(() => (window as unknown as { mend: () => void }).mend());
  await bar.getByRole('button', { name: 'Try again' }).click();
  await expect(bar).toHaveCount(0);
  const before = await savedText(page);
  await keptOnDevice(page);
  await page.goto('./?bench');
  await expect(pins(page)).toHaveCount(2);
  expect(await savedText(page)).toBe(before);
});

for (const theme of ['light', 'dark', 'strong', 'sunlight']) {
  test(`pins read in the theme ${theme}`, async ({ page }) => {
    await openDemo(page, DEMO);
    await add(page, mouse(page), await lotPlaces(page));
    await page.locator('.menu > summary').click();
    await page.getByLabel('Colors').selectOption(theme);
    await page.keyboard.press('Escape');
    await settled(page);
    await page.locator('.plan-sheet').screenshot({ path: join(RESULTS, `photos-${theme}.png`) });
    expect(await faults(page, ['color-contrast'])).toEqual([]);
  });
}
