// The homeowner's view: the yard over the whole screen, its places, its sun, and back to the plan with one tap.
import { expect, test, type Page } from '@playwright/test';
import { openDemo } from './site.ts';

const SITE = 'creek-side-deed.json';

// Twelve days of sun are worked out one after the other.
test.describe.configure({ timeout: 120_000 });

const sheet = (page: Page) => page.getByRole('dialog', { name: 'Homeowner’s view' });

/** Shown once its picture is there: what its yard is said to be. */
async function pictured(page: Page, words: RegExp) {
  const picture = sheet(page).getByRole('img', { name: words });
  await expect(picture).toBeVisible();
  await expect.poll(() => picture.evaluate((it) => (it as HTMLImageElement).naturalWidth)).toBeGreaterThan(0);
  await expect(sheet(page).locator('.shown-frame')).toHaveAttribute('aria-busy', 'false');
}

test('one tap shows the yard, and one tap leads back', async ({ page }) => {
  await openDemo(page, SITE);
  await page.getByRole('button', { name: 'Show it' }).click();
  await pictured(page, /^The yard with /);
  await test.step('it fills the screen and says what it is', async () => {
    const box = await sheet(page).boundingBox();
    expect(box).toEqual({ x: 0, y: 0, width: 1280, height: 800 });
    await expect(sheet(page)).toContainText('planning aid, not a survey');
    await expect(sheet(page).locator('dt')).toContainText(['Water', 'Depth', 'Deck']);
  });
  await test.step('the yard as it is today has no pool', async () => {
    await sheet(page).getByRole('button', { name: 'The yard today' }).click();
    await pictured(page, /^The yard as it is$/);
    await expect(sheet(page).locator('dt')).toHaveCount(0);
  });
  await test.step('the arrow keys turn from one to the next', async () => {
    await page.keyboard.press('ArrowRight');
    await pictured(page, /^The yard with /);
  });
  await test.step('where else it could lie', async () => {
    const before = await sheet(page).getByRole('img').getAttribute('src');
    await sheet(page).getByLabel('Show where else it could lie at this angle').check();
    await expect.poll(() => sheet(page).getByRole('img').getAttribute('src')).not.toBe(before);
  });
  await test.step('the sun through the day and the year', async () => {
    await sheet(page).getByRole('button', { name: 'Sun on the water' }).click();
    await expect(sheet(page).getByRole('button', { name: /^December 21, .* of sun on the water$/ })).toBeVisible();
    const hours = async (month: string): Promise<number> => {
      const name = await sheet(page).getByRole('button', { name: new RegExp(`^${month} 21, `) }).getAttribute('aria-label');
      return Number.parseFloat(name?.split(', ')[1] ?? '');
    };
    // North of the tropics midsummer has more sun than midwinter.
    expect(await hours('June')).toBeGreaterThan(await hours('December'));
    const slider = sheet(page).getByRole('slider', { name: 'Time of day' });
    const told = sheet(page).locator('.shown-shade');
    await expect(told).toContainText('of the water in sun');
    const noon = await told.textContent();
    await slider.focus();
    await page.keyboard.press('PageDown');
    await expect(told).not.toHaveText(noon ?? '');
    await expect(told).toContainText('of the water in sun');
    await expect(told).not.toContainText('The sun stands');
    await page.keyboard.press('Home');
    await expect(told).toContainText('the sun is down');
  });
  await sheet(page).getByRole('button', { name: 'Back to the plan' }).click();
  await expect(sheet(page)).toHaveCount(0);
});

test.describe('on a phone, with a finger', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true });

  test('it is in the menu, and a swipe turns to the yard as it is', async ({ page }) => {
    await openDemo(page, 'level-suburban.json');
    await page.locator('summary', { hasText: 'Job' }).tap();
    await page.getByRole('button', { name: 'Homeowner’s view' }).tap();
    await pictured(page, /^The yard with /);
    await sheet(page).locator('.shown-frame').evaluate((it) => {
      const hand = (kind: string, clientX: number): void =>
        void it.dispatchEvent(new PointerEvent(kind, { pointerId: 1, pointerType: 'touch', clientX, clientY: 300, bubbles: true }));
      hand('pointerdown', 100);
      hand('pointerup', 260);
    });
    await pictured(page, /^The yard as it is$/);
    await page.keyboard.press('Escape');
    await expect(sheet(page)).toHaveCount(0);
  });
});
