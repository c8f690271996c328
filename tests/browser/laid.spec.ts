// What is laid round the shell: fittings tapped on the plan and moved along the wall, the runs they make, and a
// deck drawn beyond the ring.
import { expect, test, type Locator, type Page } from '@playwright/test';
import { onScreen, openDemo, openStep, plannerLedger, savedText, settled, standing } from './site.ts';

const DEMO = 'level-suburban.json';

interface Saved {
  works: { pipe?: { fittings?: { kind: string; at: [number, number]; depth: number }[] } };
}

const fittings = async (page: Page) => (JSON.parse(await savedText(page)) as Saved).works.pipe?.fittings ?? [];

async function openPart(page: Page, title: string): Promise<Locator> {
  const part = page.locator('details.part').filter({ has: page.getByText(title, { exact: true }) });
  if (!(await part.evaluate((it) => (it as HTMLDetailsElement).open))) await part.locator('summary').first().click();
  return part;
}

const value = async (page: Page, key: string) =>
  (await plannerLedger(page))?.quantities?.find((row) => row.key === key)?.value;

test('fittings are tapped, slid along the wall and taken out, and their runs are counted', async ({ page }) => {
  await openDemo(page, DEMO);
  await openStep(page, 'Dig');
  const part = await openPart(page, 'Pipe');
  const { at } = await standing(page);
  for (const [button, east] of [
    ['Add a return', 2],
    ['Add a skimmer', -2],
  ] as const) {
    await part.getByRole('button', { name: button }).click();
    const spot = await onScreen(page, [at[0] + east, at[1] + 1]);
    await page.mouse.click(spot.x, spot.y);
    await settled(page);
  }
  const [back, skimmer] = await fittings(page);
  expect(back?.kind).toBe('return');
  expect(skimmer?.kind).toBe('skimmer');
  await expect(part.getByText('R1: return')).toBeVisible();
  await expect(part.getByText('S1: skimmer')).toBeVisible();
  const before = await value(page, 'pipe');
  expect(before).toMatch(/ft$/);

  const along = part.getByRole('group', { name: 'R1: return' }).getByLabel("Along the water's edge");
  await along.fill("10'");
  await along.blur();
  await settled(page);
  expect((await fittings(page))[0]?.at).not.toEqual(back?.at);
  await expect(along).toHaveValue(/^10'-0"$/);
  expect(await value(page, 'pipe')).not.toBe(before);

  await part.getByRole('button', { name: 'Remove this return' }).click();
  await settled(page);
  expect((await fittings(page)).map((it) => it.kind)).toEqual(['skimmer']);
});

test('what is planned is drawn in the Dig step and not listed among what stands on the lot', async ({ page }) => {
  await openDemo(page, DEMO);
  await openStep(page, 'Yard');
  await page.locator('.new-feature summary').first().click();
  const kinds = page.locator('.new-feature').getByLabel('What it is');
  await expect(kinds.getByRole('option', { name: 'Pipe trench' })).toHaveCount(0);
  await openStep(page, 'Dig');
  const part = await openPart(page, 'Collar and deck');
  await expect(part.getByRole('button', { name: 'Draw more deck' })).toBeVisible();
  await expect(part.getByRole('button', { name: 'Draw steps' })).toBeVisible();
});
