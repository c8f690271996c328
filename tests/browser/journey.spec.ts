// The whole way of a designer before permit, on a blank lot and without touching a file: a deed with two curves
// pasted, the house walked wall by wall, an easement along a side, a septic field, ground by corner heights, a
// shell, and then the figures that a permit office asks for; and the same site through the command line.
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { mouse } from './hand.ts';
import { expectSameReport } from './program.ts';
import { SCREENS } from './screens.ts';
import {
  demoText,
  firstVisit,
  onScreen,
  openStep,
  plannerLedger,
  readLedger,
  reportJson,
  savedText,
  settled,
  shellOnScreen,
  standing,
} from './site.ts';

const FOOT = 0.3048;
const RESULTS = join(import.meta.dirname, 'results');

/** The deed of the demo site, which knows its courses: what is pasted must become the same lot. */
const EXPECTED = JSON.parse(demoText('creek-side-deed.json')) as { lot: { deed: string; courses: Course[] } };

interface Course {
  kind: string;
  shape: unknown;
}

interface Saved {
  lot: { courses: Course[]; deed?: string };
  features: { kind: string; shape: { area?: [number, number][]; along?: { course: number; width: number } } }[];
  ground: { spots?: { spots: [number, number, number][] } };
}

interface Report {
  lot: { area: { value: number }; closing: { value: number } | null; caveats?: string[] };
  clearances: { name: string; room: { value: number }; distance: { value: number }; caveats?: string[] }[];
  quantities: { key: string; value: number; caveats?: string[] }[];
}

const saved = async (page: Page): Promise<Saved> => JSON.parse(await savedText(page)) as Saved;
const report = async (page: Page): Promise<Report> => JSON.parse(await reportJson(page)) as Report;

async function fill(at: Locator | Page, label: string, value: string): Promise<void> {
  const field = at.getByLabel(label, { exact: true });
  await field.fill(value);
  await field.blur();
}

async function deed(page: Page): Promise<void> {
  await openStep(page, 'Lot');
  await page.getByText('Courses from a deed').click();
  await page.getByLabel('Deed or list of courses').focus();
  await page.keyboard.insertText(EXPECTED.lot.deed);
  await expect(page.getByLabel('Closure of the deed')).toContainText('1:');
  await page.getByRole('button', { name: 'Use these courses' }).click();
  await settled(page);
  const { lot } = await saved(page);
  expect(lot.courses.map((it) => it.shape)).toEqual(EXPECTED.lot.courses.map((it) => it.shape));
  expect(lot.deed).toBe(EXPECTED.lot.deed);
  // The deed says which sides run along the street; the rest follows from it.
  await page.getByLabel('Which side lies on the street?').selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Reset all line kinds' }).click();
  await settled(page);
  expect((await saved(page)).lot.courses.map((it) => it.kind)).toEqual(EXPECTED.lot.courses.map((it) => it.kind));
}

async function house(page: Page, form: Locator): Promise<void> {
  await form.getByLabel('What it is').selectOption({ label: 'House' });
  await form.getByText('Walk it wall by wall').click();
  await fill(form, 'Start, east', "16'");
  await fill(form, 'Start, north', "38'");
  await form
    .getByLabel('The walk')
    .fill("forward 58', left 90°, forward 26', left 90°, forward 22', right 90°, forward 8', left 90°, forward 36', close");
  await expect(form.locator('.walk-figures')).toContainText('6 walls');
  await form.getByRole('button', { name: 'Put the house on the lot' }).click();
  await settled(page);
  const area = (await saved(page)).features.find((it) => it.kind === 'house')?.shape.area ?? [];
  const corners = area.map(([x, y]) => [Math.round((x / FOOT) * 1e6) / 1e6, Math.round((y / FOOT) * 1e6) / 1e6]);
  expect(corners).toEqual([
    [16, 38],
    [74, 38],
    [74, 64],
    [52, 64],
    [52, 72],
    [16, 72],
  ]);
}

async function easement(page: Page, form: Locator): Promise<void> {
  await form.getByLabel('What it is').selectOption({ label: 'Easement' });
  await fill(form, 'Name', 'drainage easement');
  await form.getByLabel('Its shape').selectOption({ label: 'Strip along a side of the lot' });
  await form.getByLabel('Along', { exact: true }).selectOption({ index: 3 });
  await fill(form, 'Width', "12'");
  await form.getByRole('button', { name: 'Put it on the lot' }).click();
  await settled(page);
  const strip = (await saved(page)).features.find((it) => it.kind === 'easement')?.shape.along;
  expect(strip?.course).toBe(3);
  expect(strip?.width).toBeCloseTo(12 * FOOT, 9);
}

async function septicField(page: Page, form: Locator): Promise<void> {
  await form.getByLabel('What it is').selectOption({ label: 'Septic field' });
  const figures: [string, string][] = [
    ['A corner, east', "8'"],
    ['The corner, north', "96'"],
    ['Length', "26'"],
    ['Width, to the left', "32'"],
  ];
  for (const [label, value] of figures) await fill(form, label, value);
  await form.getByRole('button', { name: 'Put it on the lot' }).click();
  await settled(page);
  expect((await saved(page)).features.map((it) => it.kind)).toContain('septic-field');
}

async function yard(page: Page): Promise<void> {
  await openStep(page, 'Yard');
  const form = page.locator('.new-feature');
  for (const put of [house, easement, septicField]) {
    const open = await form.evaluate((it) => (it as HTMLDetailsElement).open);
    if (!open) await form.locator('summary').first().click();
    await put(page, form);
  }
}

async function ground(page: Page): Promise<void> {
  await openStep(page, 'Ground');
  const boxes = page.getByLabel(/^Corner \d+$/);
  await expect(boxes).toHaveCount(EXPECTED.lot.courses.length);
  for (const [i, height] of ['100', '100.4', "99'-6\"", '97.2', '97.0'].entries()) {
    await boxes.nth(i).fill(height);
    await boxes.nth(i).press('Enter');
  }
  await page.getByRole('button', { name: 'Use these heights' }).click();
  await settled(page);
  expect((await saved(page)).ground.spots?.spots.length).toBeGreaterThanOrEqual(5);
}

async function shell(page: Page): Promise<void> {
  await openStep(page, 'Shell');
  await page.locator('.shell', { hasText: 'Betony' }).first().click();
  await settled(page);
  await fill(page, 'Shell bearing', '90');
  await settled(page);
  const hand = mouse(page);
  await hand.down(await shellOnScreen(page));
  await hand.to(await onScreen(page, [19, 29.5]));
  await hand.up();
  await settled(page);
  expect((await standing(page)).at[1]).toBeCloseTo(29.5, 0);
}

/** What the permit office asks for, as the report has it. */
async function figures(page: Page): Promise<void> {
  const { lot, clearances, quantities } = await report(page);
  // By the coordinates of the five corners, the last course ending at the first, and two circular segments: worked
  // out beside the deed.
  expect(lot.area.value).toBeCloseTo(16_400.993 * FOOT * FOOT, 2);
  expect(lot.closing?.value).toBeGreaterThan(5000);
  expect(lot.caveats ?? []).toEqual([]);
  const names = clearances.map((it) => it.name);
  for (const name of ['Water to side line', 'Water to rear line', 'Water to front line', 'Water to house']) {
    expect(names).toContain(name);
  }
  for (const name of ['Deck clear of easement', 'Dig clear of easement', 'Water to septic field']) {
    expect(names).toContain(name);
  }
  expect(quantities.find((it) => it.key === 'bank-cut')?.value).toBeGreaterThan(30);
  const shown = await readLedger(page);
  const known = await plannerLedger(page);
  expect(shown.verdict).toBe(known?.verdict);
  expect(shown.clearances).toEqual(known?.clearances);
}

test('a designer goes from the deed to the permit figures without touching a file', async ({ page }) => {
  test.setTimeout(180_000);
  await firstVisit(page);
  await page.getByRole('button', { name: 'Start with an empty 100 by 140 ft lot' }).click();
  await deed(page);
  await yard(page);
  await ground(page);
  await shell(page);
  await figures(page);
  for (const { name, viewport } of SCREENS) {
    await page.setViewportSize(viewport);
    await page.locator('.plan-fit').click();
    await settled(page);
    await page.screenshot({ path: join(RESULTS, `journey-${name}.png`) });
  }
  await page.setViewportSize({ width: 1280, height: 800 });

  // Everything undoes, back to the blank lot, and comes back.
  const end = await savedText(page);
  await page.locator('.plan-canvas').focus();
  const undo = page.locator('.top .round').first();
  let steps = 0;
  while ((await undo.getAttribute('aria-disabled')) === 'false' && steps < 60) {
    await page.keyboard.press('Control+z');
    await settled(page);
    steps += 1;
  }
  expect((await saved(page)).features).toEqual([]);
  expect((await saved(page)).lot.deed).toBeUndefined();
  for (let i = 0; i < steps; i += 1) await page.keyboard.press('Control+y');
  await settled(page);
  expect(await savedText(page)).toBe(end);

  // The command line says the same of the same site.
  await expectSameReport(page);
});
