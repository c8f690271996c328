// The job in the round: what is drawn, stage by stage, cut and on foot; by mouse, finger and keys; nothing left when it is
// closed; and what is said where nothing draws in three dimensions.
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { SCREENS } from './screens.ts';
import { openDemo } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');
const RICH = 'creek-side-deed.json';

// Without a graphics card each frame takes a tenth of a second and more, and these wait for many.
test.describe.configure({ timeout: 180_000 });

const dialog = (page: Page): Locator => page.getByRole('dialog', { name: 'In the round' });
const canvas = (page: Page): Locator => page.locator('.space-canvas');

/** Opens it from the plan and waits until something is painted. */
async function openRound(page: Page): Promise<void> {
  await page.locator('.plan-corner').getByRole('button', { name: 'In the round' }).click();
  await expect(canvas(page)).toHaveAttribute('data-triangles', /^[1-9]/, { timeout: 60_000 });
}

const frames = async (page: Page): Promise<number> => Number(await canvas(page).getAttribute('data-frames'));

/** Does something and waits until it has been painted. */
async function painted(page: Page, act: () => Promise<unknown>): Promise<void> {
  const before = await frames(page);
  await act();
  await expect.poll(() => frames(page)).toBeGreaterThan(before);
}

/** How many colors there are on the canvas, coarsely, and how like two pictures of it are. */
async function colors(page: Page): Promise<string[]> {
  const picture = (await page.locator('.space-box').screenshot()).toString('base64');
  return page.evaluate(async (data) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const flat = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height });
    const context = flat.getContext('2d');
    if (!context) return [];
    context.drawImage(image, 0, 0);
    const { data: bytes } = context.getImageData(0, 0, flat.width, flat.height);
    const found: string[] = [];
    for (let i = 0; i < bytes.length; i += 4 * 97) found.push([0, 1, 2].map((n) => (bytes[i + n] ?? 0) >> 4).join());
    return found;
  }, picture);
}

test('every stage is drawn and told, the cut and the walk as well; closed, nothing is left', async ({ page }) => {
  await openDemo(page, RICH);
  await openRound(page);
  const box = page.locator('.space-box');
  const words = page.locator('.space-words');

  await test.step('it shows the finished work, in many colors', async () => {
    await expect(box).toHaveAttribute('data-stage', '6');
    expect(new Set(await colors(page)).size).toBeGreaterThan(12);
    await expect(words).toContainText('Collar and deck are poured');
    await expect(dialog(page)).toContainText('Stand clear of an unsupported bank');
  });

  await test.step('stages follow each other, each with its own figures', async () => {
    const stage = (name: string): Locator => dialog(page).getByRole('button', { name, exact: true });
    await painted(page, () => stage('Lot').click());
    await expect(stage('Lot')).toHaveAttribute('aria-pressed', 'true');
    await expect(page.getByRole('button', { name: 'Stage before' })).toBeDisabled();
    const lot = await colors(page);
    await painted(page, () => page.getByRole('button', { name: 'Next stage' }).click());
    await expect(words).toContainText('marked on the ground');
    await painted(page, () => stage('Dug').click());
    await expect(words).toContainText(/The hole is dug.*Greatest depth of the hole: \d/);
    const dug = await colors(page);
    const changed = dug.filter((color, i) => color !== lot[i]).length;
    expect(changed / dug.length).toBeGreaterThan(0.02);
    await expect(page.locator('.space-labels p', { hasText: 'Greatest depth of the hole' })).toBeVisible();
    await painted(page, () => dialog(page).getByRole('button', { name: 'Figures' }).click());
    await expect(page.locator('.space-labels p')).toHaveCount(0);
  });

  await test.step('cut along the section, fewer triangles are drawn', async () => {
    const drawn = async (): Promise<number> => Number(await canvas(page).getAttribute('data-triangles'));
    const whole = await drawn();
    await painted(page, () => dialog(page).getByRole('button', { name: 'Cut A–A′' }).click());
    await expect(box).toHaveAttribute('data-cut', 'true');
    await expect.poll(drawn).toBeLessThan(whole);
  });

  await test.step('a hand turns it, keys turn and walk', async () => {
    const { x, y, width, height } = (await canvas(page).boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.mouse.down();
    await painted(page, () => page.mouse.move(x + width / 2 + 60, y + height / 2 + 20, { steps: 4 }));
    await page.mouse.up();
    await painted(page, () => page.mouse.wheel(0, 120));
    await canvas(page).focus();
    for (const key of ['ArrowLeft', 'ArrowUp', 'Shift+ArrowRight', '+']) await painted(page, () => page.keyboard.press(key));
    await painted(page, () => dialog(page).getByRole('button', { name: 'Walk' }).click());
    await expect(box).toHaveAttribute('data-walk', 'true');
    await canvas(page).focus();
    for (const key of ['ArrowUp', 'ArrowRight', 'Shift+ArrowUp']) await painted(page, () => page.keyboard.press(key));
    await painted(page, () => page.getByRole('button', { name: 'Step back' }).click());
  });

  await test.step('shadows are cast where they are wanted', async () => {
    await dialog(page).getByRole('button', { name: 'Sun' }).click();
    await painted(page, () => page.getByLabel('Shadows').check());
    await painted(page, () => page.getByLabel('Shadows').uncheck());
  });

  await test.step('Escape closes it; its canvas is gone and its context with it', async () => {
    const context = await page.evaluateHandle(() => document.querySelector<HTMLCanvasElement>('.space-canvas')?.getContext('webgl2'));
    await page.keyboard.press('Escape');
    await expect(dialog(page)).toHaveCount(0);
    await expect(page.locator('canvas.space-canvas, .space-labels')).toHaveCount(0);
    await expect.poll(() => context.evaluate((it) => it?.isContextLost())).toBe(true);
    await expect(page.locator('.plan-corner').getByRole('button', { name: 'In the round' })).toBeFocused();
    await openRound(page);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await expect(dialog(page)).toHaveCount(0);
  });
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });
    test('everything is in reach and told', async ({ page }) => {
      await openDemo(page, 'sloping-hillside.json', 'as left');
      await openRound(page);
      expect(await faults(page)).toEqual([]);
      if (hasTouch) expect(await smallTargets(page, '.space')).toEqual([]);
      await painted(page, () => dialog(page).getByRole('button', { name: 'Dug', exact: true }).click());
      const { scrolls } = await dialog(page).evaluate((it) => ({ scrolls: it.scrollWidth > it.clientWidth + 1 }));
      expect(scrolls).toBe(false);
      await page.screenshot({ path: join(RESULTS, `round-${name}.png`) });
    });
  });
}

test('where nothing draws in three dimensions it says so, and where it is lost it can be opened again', async ({ page }) => {
  await page.addInitScript(() => {
    const real = HTMLCanvasElement.prototype.getContext;
    const stubbed = function (this: HTMLCanvasElement, kind: string, ...rest: unknown[]): unknown {
      const off = kind.startsWith('webgl') && !Reflect.has(window, 'drawsAgain');
      return off ? null : Reflect.apply(real, this, [kind, ...rest]);
    };
    Reflect.set(HTMLCanvasElement.prototype, 'getContext', stubbed);
  });
  await openDemo(page, 'level-suburban.json', 'as left');
  await page.locator('.plan-corner').getByRole('button', { name: 'In the round' }).click();
  await expect(dialog(page).getByRole('alert')).toContainText('does not draw in three dimensions');
  await expect(canvas(page)).toHaveCount(0);
  await page.keyboard.press('Escape');
  await expect(page.locator('.plan-canvas')).toBeVisible();

  await page.evaluate(() => Reflect.set(window, 'drawsAgain', true));
  await openRound(page);
  await canvas(page).evaluate((it: HTMLCanvasElement) => it.getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext());
  await expect(dialog(page).getByRole('alert')).toContainText('took back');
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(canvas(page)).toHaveAttribute('data-triangles', /^[1-9]/, { timeout: 60_000 });
});
