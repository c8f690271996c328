// Looking at the plan: wheel and fingers zoom about where they are, bare ground pulls the paper.
import { expect, test } from '@playwright/test';
import { finger, mouse, pinch } from './hand.ts';
import { DEMO_SITES, onScreen, openDemo, savedText, settled, shellOnScreen, standing } from './site.ts';

const SITE = DEMO_SITES[0] ?? '';

test('the wheel zooms about the pointer and a drag on bare ground pulls the paper', async ({ page }) => {
  await openDemo(page, SITE);
  const text = await savedText(page);
  const { at } = await standing(page);
  const before = await onScreen(page, at);
  await page.mouse.move(before.x, before.y);
  await page.mouse.wheel(0, -400);
  await settled(page);
  const zoomed = await onScreen(page, at);
  // A wheel's position comes in whole pixels.
  expect(Math.abs(zoomed.x - before.x)).toBeLessThan(1);
  expect(Math.abs(zoomed.y - before.y)).toBeLessThan(1);

  await page.getByRole('button', { name: 'Show the whole lot' }).click();
  await settled(page);
  const box = await page.locator('.plan-canvas').boundingBox();
  if (!box) throw new Error('no plan');
  const hand = mouse(page);
  const bare = { x: box.x + 12, y: box.y + box.height / 2 };
  await hand.down(bare);
  await hand.to({ x: bare.x + 60, y: bare.y + 30 });
  await hand.up();
  await settled(page);
  const pulled = await onScreen(page, at);
  expect(pulled.x - before.x).toBeCloseTo(60, 3);
  expect(pulled.y - before.y).toBeCloseTo(30, 3);
  expect(await savedText(page)).toBe(text);
});

test.describe('with fingers', () => {
  test.use({ hasTouch: true, viewport: { width: 1024, height: 768 } });

  test('two fingers zoom and never move the shell', async ({ page }) => {
    await openDemo(page, SITE);
    const text = await savedText(page);
    const middle = await shellOnScreen(page);
    const { at } = await standing(page);
    const scale = await page.evaluate(() => window.bench.view().scale);
    const apart = (gap: number) =>
      [
        { x: middle.x - gap, y: middle.y },
        { x: middle.x + gap, y: middle.y },
      ] as [{ x: number; y: number }, { x: number; y: number }];
    await pinch(page, apart(15), apart(60));
    await settled(page);
    expect((await page.evaluate(() => window.bench.view().scale)) / scale).toBeCloseTo(4, 1);
    const after = await onScreen(page, at);
    expect(Math.abs(after.x - middle.x)).toBeLessThan(2);
    expect(await savedText(page)).toBe(text);
    await expect(page.getByRole('button', { name: 'Nothing to undo' })).toBeVisible();
  });

  test('a second finger gives up a drag', async ({ page }) => {
    await openDemo(page, SITE);
    const text = await savedText(page);
    const start = await shellOnScreen(page);
    const hand = await finger(page);
    await hand.down(start);
    await hand.to({ x: start.x + 40, y: start.y });
    const browser = await page.context().newCDPSession(page);
    await browser.send('Input.dispatchTouchEvent', {
      type: 'touchStart',
      touchPoints: [
        { x: start.x + 40, y: start.y, id: 0 },
        { x: start.x, y: start.y + 90, id: 1 },
      ],
    });
    await browser.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await settled(page);
    expect(await savedText(page)).toBe(text);
  });
});
