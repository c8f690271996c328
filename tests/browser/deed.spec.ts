// A deed with two curves: pasted, read piece by piece, used, balanced and taken back.
import { expect, test, type Page } from '@playwright/test';
import { onScreen, openDemo, openStep, savedText, settled } from './site.ts';

const DEED = `BEGINNING at an iron pin on the street line; thence North 0 degrees 00 minutes 00 seconds East 100.00 feet;
thence along a tangent curve to the right having a radius of 25.00 feet, an arc length of 39.27 feet, chord bearing
N 45°00'00" E, chord 35.36 feet; thence East 100.00 feet; thence along a curve to the right, radius 25.00',
central angle 90°00'00", chord bearing S 45-00-00 E; thence South 100.00 feet; thence due West 150.00 feet to the
point of beginning, containing 0.424 acres, more or less.`;

interface Lot {
  courses: unknown[];
  stated_area?: number;
  balance?: string;
}

const lotOf = async (page: Page): Promise<Lot> => (JSON.parse(await savedText(page)) as { lot: Lot }).lot;

async function openDeed(page: Page) {
  await openDemo(page, 'level-suburban.json');
  await openStep(page, 'Lot');
  await page.getByText('Courses from a deed').click();
  return page.getByLabel('Deed or list of courses');
}

for (const viewport of [
  { width: 1280, height: 800 },
  { width: 390, height: 844 },
]) {
  test(`a deed with two curves becomes the lot at ${viewport.width}`, async ({ page }) => {
    await page.setViewportSize(viewport);
    const box = await openDeed(page);
    const before = await savedText(page);
    await box.focus();
    await page.keyboard.insertText(DEED);
    const read = page.getByRole('group', { name: 'What was understood' });
    await expect(read).toContainText('35.36 feet [side 2: chord 35.36 ft]');
    await expect(read).toContainText('0.424 acres [stated area');
    await expect(read).toContainText('iron pin on the street [skipped]');
    const closure = page.getByLabel('Closure of the deed');
    // The first chord is stated as 35.36 ft; radius and angle make it 35.355, and nothing else is rounded.
    await expect(closure).toContainText('Misclosure0.005 ft');
    await expect(closure).toContainText('N 45°00\'00" E');
    await expect(closure).toContainText('ac');
    await expect(closure).toContainText('m²');
    expect(await savedText(page)).toBe(before);

    // By keyboard alone: from the text to the button.
    const use = page.getByRole('button', { name: 'Use these courses' });
    for (let i = 0; i < 5 && !(await use.evaluate((it) => it === document.activeElement)); i += 1) {
      await page.keyboard.press('Tab');
    }
    await expect(use).toBeFocused();
    await page.screenshot({ path: `results/deed-${viewport.width}.png` });
    await page.keyboard.press('Enter');
    await settled(page);
    const used = await lotOf(page);
    expect(used.courses).toHaveLength(6);
    expect(used.stated_area).toBeCloseTo(0.424 * 4046.8564224, 6);

    await page.getByRole('button', { name: 'Balance by the compass rule' }).click();
    expect((await lotOf(page)).balance).toBe('compass-rule');
    expect((await lotOf(page)).courses).toEqual(used.courses);
    await box.blur();
    await page.keyboard.press('Control+z');
    expect((await lotOf(page)).balance).toBeUndefined();
    await page.keyboard.press('Control+z');
    expect(await savedText(page)).toBe(before);
  });
}

test('what is not understood is marked, told and never used', async ({ page }) => {
  const box = await openDeed(page);
  await box.fill('N 0 E 100\nN 95 E 50\nalong the creek to a stone');
  await expect(page.locator('.deed-piece[data-kind="fault"]').first()).toContainText('not used');
  await expect(page.getByText('Fault, line 2:')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Use these courses' })).toBeDisabled();
});

test('the text of a deed is kept with the lot, and says when the courses are no longer its own', async ({ page }) => {
  const box = await openDeed(page);
  await box.fill(
    `thence along the north line of Elm Street, East 100.00 feet; thence N 0 E one hundred forty feet; thence West
    100.00 feet; thence S 0 E 140.00 feet to the point of beginning`,
  );
  await page.getByRole('button', { name: 'Use these courses' }).click();
  await settled(page);
  const lot = JSON.parse(await savedText(page)) as { lot: { deed: string; courses: { kind: string }[] } };
  expect(lot.lot.deed).toContain('Elm Street');
  // The street is named in the text: the kinds are proposed at once.
  expect(lot.lot.courses.map((it) => it.kind)).toEqual(['front', 'side', 'rear', 'side']);

  await openStep(page, 'Dig');
  await openStep(page, 'Lot');
  await page.getByText('Courses from a deed').click();
  await expect(box).toHaveValue(/one hundred forty feet/);
  await expect(page.getByRole('group', { name: 'What was understood' })).toContainText('distance 140.00 ft');
  await expect(page.getByText('no longer those of this text')).toHaveCount(0);

  await page.locator('.side').nth(0).locator('summary').click();
  await page.locator('.side').nth(0).getByLabel('Distance').fill('100.01');
  await page.locator('.side').nth(0).getByLabel('Distance').press('Enter');
  await expect(page.getByText('no longer those of this text')).toBeVisible();
  await expect(page.getByText('Courses from a deed (changed since)')).toBeVisible();
});

test('after a deed that names no street, a tap says which side lies on it', async ({ page }) => {
  const box = await openDeed(page);
  await box.fill('N 0 E 140\nEast 100\nS 0 E 140\nWest 100');
  await page.getByRole('button', { name: 'Use these courses' }).click();
  await settled(page);
  await expect(page.getByRole('button', { name: 'Pick the side now' })).toBeVisible();
  const spot = await onScreen(page, [15.24, 0]);
  await page.mouse.click(spot.x, spot.y);
  await settled(page);
  const lot = JSON.parse(await savedText(page)) as { lot: { courses: { kind: string }[] } };
  expect(lot.lot.courses.map((it) => it.kind)).toEqual(['side', 'rear', 'side', 'front']);
});
