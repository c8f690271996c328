// Everything that can be done to the shell besides dragging it, and that all of it can be undone.
import { expect, test, type Page } from '@playwright/test';
import { mouse } from './hand.ts';
import { handleOnScreen, openDemo, openStep, savedText, settled, shellOnScreen, standing } from './site.ts';

const SITE = 'level-suburban.json';
const INCH = 0.0254;

test.beforeEach(async ({ page }) => {
  await openDemo(page, SITE);
  await openStep(page, 'Shell');
});

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
  await settled(page);
}

test('the handle turns the shell', async ({ page }) => {
  const before = await standing(page);
  const middle = await shellOnScreen(page);
  const handle = await handleOnScreen(page);
  const hand = mouse(page);
  await hand.down(handle);
  // A quarter of a quarter turn, clockwise on the screen.
  const [dx, dy] = [handle.x - middle.x, handle.y - middle.y];
  const turn = Math.PI / 8;
  await page.keyboard.down('Alt');
  await hand.to({
    x: middle.x + dx * Math.cos(turn) - dy * Math.sin(turn),
    y: middle.y + dx * Math.sin(turn) + dy * Math.cos(turn),
  });
  await hand.up();
  await page.keyboard.up('Alt');
  await settled(page);
  const after = await standing(page);
  expect(after.at).toEqual(before.at);
  expect(after.heading - before.heading).toBeCloseTo(turn, 2);
  await expect(page.getByRole('button', { name: 'Undo: turn shell' })).toBeVisible();
});

test('a drag given up with Escape leaves everything as it was', async ({ page }) => {
  const text = await savedText(page);
  const start = await shellOnScreen(page);
  const hand = mouse(page);
  await hand.down(start);
  await hand.to({ x: start.x + 50, y: start.y + 50 });
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('Escape');
  await hand.up();
  await settled(page);
  expect(await savedText(page)).toBe(text);
  await expect(page.getByRole('button', { name: 'Nothing to undo' })).toBeVisible();
});

test('a bearing and an elevation are typed', async ({ page }) => {
  await type(page, 'Shell bearing', '112.5');
  expect((await standing(page)).heading).toBeCloseTo((112.5 * Math.PI) / 180, 9);
  await type(page, 'Coping elevation', '30.5 m');
  expect((await standing(page)).coping).toBeCloseTo(30.5, 9);
  await page.getByRole('button', { name: 'Raise the coping by 1 in' }).click();
  await page.getByRole('button', { name: 'Raise the coping by 1 in' }).click();
  await page.getByRole('button', { name: 'Lower the coping by 1 in' }).click();
  expect((await standing(page)).coping).toBeCloseTo(30.5 + INCH, 9);
});

test('lengths are typed in any unit, doubted, and refused beside the field', async ({ page }) => {
  await openStep(page, 'Dig');
  const overDig = async () => (JSON.parse(await savedText(page)) as { works: { dig: { over_dig: number } } }).works.dig.over_dig;
  for (const [text, metres] of [
    ['1\'2"', 14 * INCH],
    ['1.25 ft', 1.25 * 12 * INCH],
    ['11 in', 11 * INCH],
    ['0.31 m', 0.31],
  ] as const) {
    await type(page, 'Over-dig at the sides', text);
    expect(await overDig(), text).toBeCloseTo(metres, 12);
  }
  const field = page.getByLabel('Over-dig at the sides', { exact: true });
  const word = page.locator('.field', { has: field }).locator('.field-word');

  await type(page, 'Over-dig at the sides', 'a foot or so');
  await expect(word).toHaveAttribute('data-kind', 'fault');
  await expect(field).toHaveAttribute('aria-invalid', 'true');
  expect(await overDig()).toBeCloseTo(0.31, 12);

  await field.press('Escape');
  await expect(word).toHaveText('');
  await expect(field).not.toHaveValue('a foot or so');

  await type(page, 'Over-dig at the sides', '40 ft');
  await expect(word).toHaveAttribute('data-kind', 'fault');
  expect(await overDig()).toBeCloseTo(0.31, 12);

  await field.fill('2.6');
  await expect(word).toHaveAttribute('data-kind', 'doubt');
});

test('keys nudge, turn, flip and line up', async ({ page }) => {
  const start = await standing(page);
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowUp');
  const nudged = await standing(page);
  expect(nudged.at[0] - start.at[0]).toBeCloseTo(INCH, 9);
  expect(nudged.at[1] - start.at[1]).toBeCloseTo(12 * INCH, 9);
  await page.keyboard.press(']');
  expect((await standing(page)).heading - start.heading).toBeCloseTo(Math.PI / 180, 9);
  await page.keyboard.press('f');
  expect((await standing(page)).mirrored).toBe(!start.mirrored);
  await page.keyboard.press('a');
  const aligned = (await standing(page)).heading / (Math.PI / 2);
  expect(aligned).toBeCloseTo(Math.round(aligned), 6);
});

test('everything is undone and done again', async ({ page }) => {
  const texts = [await savedText(page)];
  const did = async () => {
    await settled(page);
    const text = await savedText(page);
    expect(text).not.toBe(texts.at(-1));
    texts.push(text);
  };
  const press = async (name: string) => {
    await page.getByRole('button', { name, exact: true }).click();
    await did();
  };
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ArrowLeft');
  await did();
  await type(page, 'Shell bearing', '33');
  await did();
  await type(page, 'Coping elevation', '102 ft');
  await did();
  await press('Flip');
  await press('Line up with the nearest wall or line');
  await page.getByText('Choose another shell').click();
  await page.locator('.shell').nth(3).click();
  await did();
  await page.getByRole('button', { name: 'Meters' }).click();
  await did();
  await page.getByText('Equipment pad', { exact: true }).click();
  await press('Take the pad away');
  // The ledger offers it too.
  await page.locator('#step-panel').getByRole('button', { name: 'Place the equipment pad' }).click();
  await did();
  await openStep(page, 'Dig');
  await type(page, 'Stone base under the floor', '15 cm');
  await did();
  await page.getByLabel('Soil class, by a competent person').selectOption('stable-rock');
  await did();
  await openStep(page, 'Ground');
  await page.getByLabel('What is known of the ground').selectOption('plane');
  await did();
  await openStep(page, 'Lot');
  await page.locator('.side').nth(1).locator('summary').click();
  await page.getByRole('group', { name: 'Kind of side 2' }).getByRole('button', { name: 'Street side' }).click();
  await did();
  const rule = page.locator('.new-rule');
  await rule.locator('summary').click();
  await rule.getByLabel('From', { exact: true }).selectOption('rim');
  await rule.getByLabel('To', { exact: true }).selectOption('line');
  await rule.getByLabel('At least').fill("9'");
  await rule.getByLabel('Source').fill('The owner');
  await rule.getByRole('button', { name: 'Add this rule' }).click();
  await did();
  await page.getByLabel('Name of the job').fill('Another name');
  await page.getByLabel('Name of the job').press('Enter');
  await did();

  for (const text of texts.slice(0, -1).reverse()) {
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await savedText(page)).toBe(text);
  }
  await expect(page.getByRole('button', { name: 'Nothing to undo' })).toBeVisible();
  for (const text of texts.slice(1)) {
    await page.keyboard.press('Control+Shift+z');
    await settled(page);
    expect(await savedText(page)).toBe(text);
  }
  await expect(page.getByRole('button', { name: 'Nothing to redo' })).toBeVisible();
});

test('units switch between feet and metres', async ({ page }) => {
  const room = page.locator('.clearance-room').first();
  await expect(room).toContainText("'");
  await page.getByRole('button', { name: 'Meters' }).click();
  await expect(room).toContainText(' m');
  await expect(page.getByLabel('Coping elevation')).toHaveValue(/ m$/);
  await page.getByRole('button', { name: 'Feet' }).click();
  await expect(room).toContainText("'");
});

test('a shell is typed in and another loaded from a file', async ({ page }) => {
  await page.getByText('A shell of your own').click();
  await type(page, 'Length inside', "24'");
  await page.getByRole('button', { name: 'Put this shell on the lot' }).click();
  await expect(page.locator('.standing-name')).toContainText('My shell');

  await page.getByText('How such a file looks').click();
  const sample = await page.locator('.part pre').innerText();
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Load a shell file' }).click();
  await (await chooser).setFiles({ name: 'round.json', mimeType: 'application/json', buffer: Buffer.from(sample) });
  await expect(page.locator('.standing-name')).toContainText('Round-ended shell');
});

test('every shell of the catalogue can be put on the lot', async ({ page }) => {
  await page.getByText('Choose another shell').click();
  const cards = page.locator('.shell');
  const count = await cards.count();
  expect(count).toBeGreaterThanOrEqual(14);
  for (let i = 0; i < count; i += 1) {
    await page.locator('details:has(.shells)').evaluate((it: HTMLDetailsElement) => (it.open = true));
    const name = await cards.nth(i).locator('.shell-name').innerText();
    await cards.nth(i).click();
    await expect(page.locator('.standing-name')).toContainText(name);
    await expect(page.locator('.sheet')).toHaveCount(0);
  }
});

test('a quantity opens its working and lights up on the plan', async ({ page }) => {
  const row = page.locator('.quantity').first();
  await row.click();
  await expect(page.locator('.working')).toBeVisible();
  await expect(page.locator('.working-formula')).not.toBeEmpty();
  await expect(page.locator('.working dl')).toContainText('Source');
  const picture = () => page.locator('.plan-canvas').evaluate((it: HTMLCanvasElement) => it.toDataURL());
  await page.mouse.move(700, 20);
  await page.locator('.verdict').hover();
  await settled(page);
  const dark = await picture();
  await page.locator('.clearance').first().hover();
  await settled(page);
  expect(await picture()).not.toBe(dark);
});
