// The page gives each their room: the plan, the band of key figures, the folded ledger, columns pulled to size; and
// anything is found by its name.
import { expect, test, type Page } from '@playwright/test';
import { SCREENS } from './screens.ts';
import { onScreen, openDemo, openStep, settled, shellOnScreen, standing } from './site.ts';

const RICH = 'creek-side-deed.json';
const SHORT = 'wedge-cul-de-sac.json';

const widthOf = async (page: Page, what: string): Promise<number> => (await page.locator(what).boundingBox())?.width ?? 0;
const heightOf = async (page: Page, what: string): Promise<number> => (await page.locator(what).boundingBox())?.height ?? 0;
const figure = (page: Page, key: string) => page.locator(`.band-figure[data-key="${key}"]`);

test.describe('at a desk', () => {
  test.use({ viewport: { width: 1280, height: 800 } });

  test('the plan has most of the screen, columns are pulled to size and stay so', async ({ page }) => {
    await openDemo(page, RICH, 'as left');
    expect(await widthOf(page, '.plan-canvas')).toBeGreaterThan(0.65 * 1280);
    await page.getByRole('button', { name: 'Fold ledger' }).click();
    await expect(page.locator('.ledger')).toBeHidden();
    expect(await widthOf(page, '.plan-canvas')).toBeGreaterThan(0.9 * 1280);
    await page.getByRole('button', { name: 'Show ledger' }).click();

    const edge = page.getByRole('separator', { name: 'Width of the ledger' });
    const before = await widthOf(page, '.ledger');
    const box = await edge.boundingBox();
    if (!box) throw new Error('the edge is not on the screen');
    await page.mouse.move(box.x + 6, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x - 54, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => widthOf(page, '.ledger')).toBe(before + 60);
    await edge.focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => widthOf(page, '.ledger')).toBe(before + 40);
    await page.reload();
    await expect(page.locator('.ledger')).toBeVisible();
    await expect.poll(() => widthOf(page, '.ledger')).toBe(before + 40);

    await openStep(page, 'Dig');
    const panel = page.getByRole('separator', { name: 'Width of the step' });
    const wide = await widthOf(page, '.panel');
    await panel.focus();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => widthOf(page, '.panel')).toBe(wide - 20);
  });

  test('a figure in the band moves with the hand and leads to its calculation', async ({ page }) => {
    await openDemo(page, 'sloping-hillside.json', 'as left');
    await expect(page.locator('.quantity')).toHaveCount(0);
    await expect(page.locator('.band-change')).toHaveCount(0);
    const cut = figure(page, 'bank-cut');
    const before = await cut.locator('.band-value').innerText();
    const at = await shellOnScreen(page);
    const [x, y] = (await standing(page)).at;
    const to = await onScreen(page, [x + 1.5, y + 1.5]);
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 5 });
    await settled(page);
    await expect(cut.locator('.band-change')).toBeVisible();
    const told = await page.evaluate(() => window.bench.ask((p) => p.band(['bank-cut'])[0], undefined));
    await expect(cut.locator('.band-change')).toHaveText(told?.change?.text ?? 'nothing');
    await page.mouse.up();
    await settled(page);
    await expect(cut.locator('.band-value')).not.toHaveText(before);
    await cut.click();
    await expect(page.locator('.quantity[data-key="bank-cut"]')).toHaveAttribute('aria-expanded', 'true');
    await expect(page.locator('.working')).toBeInViewport();
    // After an undo the tag says the way back.
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await cut.locator('.band-value').innerText()).toBe(before);
  });

  test('the user pins which figures stand in the band', async ({ page }) => {
    await openDemo(page, RICH, 'as left');
    await page.getByRole('button', { name: 'Pin figures' }).click();
    await page.getByLabel('Truck loads').uncheck();
    await page.getByLabel('Greatest depth of the hole').check();
    await page.getByRole('button', { name: 'Done' }).click();
    await expect(figure(page, 'loads')).toHaveCount(0);
    await expect(figure(page, 'dig-depth')).toBeVisible();
    await page.reload();
    await expect(figure(page, 'dig-depth')).toBeVisible();
  });

  test('anything is found by its name, with keys alone', async ({ page }) => {
    await openDemo(page, RICH, 'as left');
    await page.locator('.plan-canvas').focus();
    await page.keyboard.press('/');
    await expect(page.getByRole('combobox')).toBeFocused();
    await page.keyboard.type('total conc');
    await page.keyboard.press('Enter');
    await expect(page.locator('.quantity[data-key="concrete"]')).toHaveAttribute('aria-expanded', 'true');
    await page.locator('.plan-canvas').focus();
    await page.keyboard.press('/');
    await page.keyboard.type('oak');
    await expect(page.getByRole('option', { name: /^oak/i }).first()).toBeVisible();
    await page.keyboard.type(' nonsense');
    await expect(page.getByText('Nothing here has that name')).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(page.getByRole('combobox')).toHaveCount(0);
    await page.getByRole('button', { name: 'Find', exact: true }).click();
    await expect(page.getByRole('combobox')).toBeFocused();
    await page.keyboard.type('garage');
    await page.getByRole('option', { name: /^garage/i }).first().click();
    await expect(page.locator('.panel')).toContainText('garage');
  });

  test('a rule takes part once it has from, to, distance and source', async ({ page }) => {
    await openDemo(page, 'level-suburban.json');
    await openStep(page, 'Lot');
    const rows = await page.locator('.clearance').count();
    const form = page.locator('.new-rule');
    await form.locator('summary').click();
    await form.getByLabel('From').selectOption({ label: 'Deck edge' });
    await form.getByRole('button', { name: 'Add this rule' }).click();
    await expect(form.getByRole('alert')).toHaveText('Still to enter: what it is measured to, the distance, its source.');
    await form.getByLabel('To', { exact: true }).selectOption('line:rear');
    await form.getByLabel('At least').fill("4'");
    await form.getByLabel('Source').fill('Lot notes of the owner');
    expect(await page.locator('.clearance').count()).toBe(rows);
    await form.getByRole('button', { name: 'Add this rule' }).click();
    await expect(page.locator('.clearance')).toHaveCount(rows + 1);
    await expect(page.locator('.card[data-rule]').last().locator('> summary')).toHaveText(/Deck edge to rear\s*4'-0"/);
  });
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('whatever is open, the band says what falls short and the plan keeps its buttons', async ({ page }) => {
      await openDemo(page, SHORT, 'as left');
      for (const step of ['Lot', 'Yard', 'Ground', 'Shell', 'Dig'] as const) {
        await openStep(page, step);
        await expect(page.locator('.band-verdict')).toBeInViewport();
        await expect(page.locator('.band-verdict')).toHaveText(/\d short/);
        await expect(page.getByRole('button', { name: 'Zoom in' })).toBeInViewport();
        expect(await heightOf(page, '.plan-canvas')).toBeGreaterThan(280);
      }
      await page.locator('.band-verdict').click();
      await expect(page.locator('.clearance[data-short="true"]').first()).toBeInViewport();
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(wide, 'nothing reaches past the edge of the screen').toBeLessThanOrEqual(0);
    });
  });
}
