// Hands and keys: the list of steps, tapes, the ring, the long press, pen and palm, and the locked plan.
import { expect, test, type Page } from '@playwright/test';
import { finger, mouse } from './hand.ts';
import { SCREENS } from './screens.ts';
import { handleOnScreen, keptOnDevice, onScreen, openDemo, savedText, settled, shellOnScreen, standing, type Spot } from './site.ts';

const SITE = 'level-suburban.json';

/** What the undo arrow would take back. */
const undoLabel = (page: Page): Promise<string | null> =>
  page.evaluate(() => window.bench.ask((p) => p.ledger(0, null).undo, null));

/** What is kept of the tapes, as the page lists them. */
const tapes = (page: Page) =>
  page.evaluate(() =>
    window.bench.ask((p) => p.ledger(0, null).tapes.map((it) => [it.from, it.to, it.distance?.text ?? null, it.says.join(' ')]), []),
  );

const degrees = async (page: Page): Promise<number> => ((await standing(page)).heading * 180) / Math.PI;

/** A place in the middle of the house. */
async function houseOnScreen(page: Page): Promise<Spot> {
  const at = await page.evaluate(() =>
    window.bench.ask((p): [number, number] | null => {
      for (let x = 1; x < 60; x += 0.5) {
        for (let y = 1; y < 60; y += 0.5) if (p.feature_at(x, y, 0)?.toLowerCase().includes('house')) return [x + 1, y + 1];
      }
      return null;
    }, null),
  );
  if (!at) throw new Error('there is no house');
  return onScreen(page, at);
}

const tap = async (page: Page, at: Spot, touch: boolean): Promise<void> =>
  touch ? page.touchscreen.tap(at.x, at.y) : page.mouse.click(at.x, at.y);

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('any step is gone to from the list, and a tape is stretched, kept and taken away', async ({ page }) => {
      await openDemo(page, SITE, 'as left');
      const plan = page.locator('.plan-canvas');
      const texts: string[] = [await savedText(page)];
      await plan.focus();
      for (const key of ['ArrowUp', ']', 'f']) {
        await page.keyboard.press(key);
        await settled(page);
        texts.push(await savedText(page));
      }
      const head = page.locator('.steps > summary');
      const steps = page.getByRole('list', { name: 'Steps, newest first' }).getByRole('button');
      await test.step('by a tap', async () => {
        await head.click();
        await expect(steps).toHaveText(['flip shell', 'turn shell', 'nudge shell', 'Before all of these']);
        const box = await page.locator('.steps ol').boundingBox();
        expect(box && box.x >= 0 && box.x + box.width <= viewport.width && box.y + box.height <= viewport.height).toBe(true);
        await steps.nth(2).click();
        expect(await savedText(page)).toBe(texts[1]);
        await expect(steps.nth(2)).toHaveAttribute('aria-current', 'step');
        await steps.nth(3).click();
        expect(await savedText(page)).toBe(texts[0]);
      });
      await test.step('by keys', async () => {
        await head.focus();
        await page.keyboard.press('Tab');
        await page.keyboard.press('Enter');
        expect(await savedText(page)).toBe(texts[3]);
        await page.keyboard.press('Escape');
        await expect(steps).toHaveCount(0);
        await expect(head).toBeFocused();
      });

      const button = page.getByRole('button', { name: 'Tape', exact: true });
      const bar = page.getByRole('region', { name: 'Tape', exact: true });
      await test.step('a tape by two taps', async () => {
        const before = await savedText(page);
        await button.click();
        await settled(page);
        await tap(page, await houseOnScreen(page), hasTouch);
        await expect(bar).toContainText('Now its other end.');
        await tap(page, await shellOnScreen(page), hasTouch);
        await settled(page);
        const [kept] = await tapes(page);
        expect(kept?.[1]).toBe("water's edge");
        await expect(bar).toContainText(kept?.[2] ?? 'no figure');
        await expect(bar).toContainText("The water's edge is exact as planned.");
        // It follows the shell, is kept in the file, and is one step.
        expect(JSON.parse(await savedText(page)).tapes).toHaveLength(1);
        expect(await undoLabel(page)).toBe('change the tapes');
        await plan.focus();
        await page.keyboard.press('Shift+ArrowUp');
        expect((await tapes(page))[0]?.[2]).not.toBe(kept?.[2]);
        await page.keyboard.press('Control+z');
        await page.keyboard.press('Control+z');
        expect(await savedText(page)).toBe(before);
        await page.keyboard.press('Control+y');
        await settled(page);
        expect((await tapes(page))[0]).toEqual(kept);
      });
      await test.step('by keys alone, with a point that is typed', async () => {
        await bar.getByRole('button', { name: 'Remove' }).click();
        expect(await tapes(page)).toEqual([]);
        await bar.getByLabel('From').selectOption('top of dig');
        await bar.getByLabel('To').selectOption('A point of the plan');
        await page.getByLabel('East', { exact: true }).fill('10 ft');
        await page.getByLabel('North', { exact: true }).fill('12 ft');
        await page.getByRole('button', { name: 'Place', exact: true }).click();
        await expect(bar).toContainText('moves with the ground');
        await bar.getByRole('button', { name: 'Done' }).click();
        await expect(bar).toHaveCount(0);
        expect((await tapes(page))[0]?.slice(0, 2)).toEqual(['top of dig', 'point']);
      });
      await test.step('listed where it is taken away', async () => {
        if (viewport.width < 720) await page.getByRole('button', { name: 'Show the whole ledger' }).click();
        await expect(page.locator('.tapes')).toContainText('top of dig to point');
        await page.getByRole('button', { name: 'Remove the tape top of dig to point' }).click();
        await expect(page.locator('.tapes')).toHaveCount(0);
      });
    });

    test('a hand turns by whole degrees near the ring, and a locked plan holds it off', async ({ page }) => {
      await openDemo(page, SITE, 'as left');
      const hand = hasTouch ? await finger(page) : mouse(page);
      const knob = await handleOnScreen(page);
      const middle = await shellOnScreen(page);
      const aside = (out: number, turned: number): Spot => {
        const [x, y] = [knob.x - middle.x, knob.y - middle.y];
        const [c, s] = [Math.cos(turned) * out, Math.sin(turned) * out];
        return { x: middle.x + x * c - y * s, y: middle.y + x * s + y * c };
      };
      const before = await degrees(page);
      await hand.down(knob);
      await hand.to(aside(1, 0.4));
      await settled(page);
      const near = await degrees(page);
      await page.screenshot({ path: test.info().outputPath('ring.png') });
      await hand.up();
      await settled(page);
      expect(Math.abs(near - before)).toBeGreaterThan(10);
      expect(Math.abs(near - Math.round(near))).toBeLessThan(1e-6);
      await page.keyboard.press('Control+z');
      if (!hasTouch) {
        await hand.down(knob);
        await page.keyboard.down('Alt');
        await hand.to(aside(1, 0.4));
        await settled(page);
        const free = await degrees(page);
        await page.keyboard.up('Alt');
        await hand.up();
        expect(Math.abs(free - Math.round(free))).toBeGreaterThan(1e-6);
        expect(Math.abs(free - near)).toBeLessThan(0.6);
        await page.keyboard.press('Control+z');
      }

      const lock = page.getByRole('button', { name: 'Lock the plan' });
      await lock.click();
      await settled(page);
      const text = await savedText(page);
      const view = await page.evaluate(() => window.bench.view());
      await hand.down(middle);
      await hand.to({ x: middle.x + 40, y: middle.y + 30 });
      await hand.up();
      await settled(page);
      expect(await savedText(page)).toBe(text);
      expect((await page.evaluate(() => window.bench.view())).x).not.toBeCloseTo(view.x, 3);
      await page.locator('.plan-canvas').focus();
      for (const key of ['ArrowUp', 'f', 'a', ']', '}']) {
        await page.keyboard.press(key);
        await expect(page.locator('.notice')).toContainText('The plan is locked');
      }
      expect(await savedText(page)).toBe(text);
      // It is this device's, and no site's.
      expect(text).not.toContain('lock');
      await keptOnDevice(page);
      await page.reload();
      await expect(lock).toHaveAttribute('aria-pressed', 'true');
      await page.locator('.plan-canvas').focus();
      await page.keyboard.press('l');
      await expect(lock).toHaveAttribute('aria-pressed', 'false');
      await page.keyboard.press('ArrowUp');
      await expect.poll(() => undoLabel(page)).toBe('nudge shell');
    });
  });
}

test.describe('a tablet', () => {
  test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

  test('a long press opens the exact numbers and moves nothing', async ({ page }) => {
    await openDemo(page, SITE, 'as left');
    const text = await savedText(page);
    const hand = await finger(page);
    const east = page.getByLabel('Shell place, east');
    await hand.down(await shellOnScreen(page));
    await expect(east).toBeFocused();
    await hand.up();
    await settled(page);
    await expect(east).toBeFocused();
    expect(await savedText(page)).toBe(text);
    await east.fill('60 ft');
    await page.keyboard.press('Enter');
    expect((await standing(page)).at[0]).toBeCloseTo(60 * 0.3048, 6);
    await page.getByRole('button', { name: 'Undo: move shell' }).click();

    await hand.down(await handleOnScreen(page));
    await expect(page.getByLabel('Shell bearing')).toBeFocused();
    await hand.up();
    await hand.down(await houseOnScreen(page));
    await expect(page.locator('.panel details.card[open] > summary, .panel details[open] > summary:focus')).not.toHaveCount(0);
    await hand.up();
    await hand.down(await onScreen(page, [3, 0]));
    await expect(page.locator('.side[data-chosen]')).toHaveCount(1);
    await hand.up();
    // A finger that moves drags, however long it takes.
    const from = await shellOnScreen(page);
    await hand.down(from);
    await hand.to({ x: from.x + 20, y: from.y });
    await page.waitForTimeout(700);
    await hand.up();
    await settled(page);
    expect(await undoLabel(page)).toBe('move shell');
  });

  test('a palm beside a pen does nothing, nor does a broad touch', async ({ page }) => {
    await openDemo(page, SITE, 'as left');
    // The edge of clear ground does not hold what the pen moves.
    await page.locator('.plan-canvas').press('s');
    const browser = await page.context().newCDPSession(page);
    const pen = (type: 'mousePressed' | 'mouseMoved' | 'mouseReleased', { x, y }: Spot) =>
      browser.send('Input.dispatchMouseEvent', { type, x, y, button: 'left', buttons: type === 'mouseReleased' ? 0 : 1, clickCount: 1, pointerType: 'pen' });
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: (Spot & { radiusX?: number })[]) =>
      browser.send('Input.dispatchTouchEvent', { type, touchPoints: points });
    const from = await shellOnScreen(page);
    const view = () => page.evaluate(() => window.bench.view());
    const [text, before] = [await savedText(page), await view()];

    // A broad touch on the shell.
    await touch('touchStart', [{ ...from, radiusX: 80 }]);
    await touch('touchMove', [{ x: from.x + 60, y: from.y, radiusX: 80 }]);
    await touch('touchEnd', []);
    await settled(page);
    expect(await savedText(page)).toBe(text);

    // Two fingers at rest while the pen drags the shell.
    await pen('mousePressed', from);
    await touch('touchStart', [{ x: from.x + 90, y: from.y + 90 }, { x: from.x + 130, y: from.y + 120 }]);
    await touch('touchMove', [{ x: from.x + 20, y: from.y + 90 }, { x: from.x + 160, y: from.y + 160 }]);
    for (let i = 1; i <= 10; i += 1) await pen('mouseMoved', { x: from.x + 3 * i, y: from.y });
    await settled(page);
    await pen('mouseReleased', { x: from.x + 30, y: from.y });
    await touch('touchEnd', []);
    await settled(page);
    const after = await view();
    expect([after.x, after.y, after.scale]).toEqual([before.x, before.y, before.scale]);
    expect(await undoLabel(page)).toBe('move shell');
    const moved = await shellOnScreen(page);
    expect(Math.abs(moved.x - from.x - 30)).toBeLessThan(2);
  });
});

test('the right button and the menu key open the exact numbers', async ({ page }) => {
  await openDemo(page, SITE, 'as left');
  const east = page.getByLabel('Shell place, east');
  const at = await shellOnScreen(page);
  await page.mouse.click(at.x, at.y, { button: 'right' });
  await expect(east).toBeFocused();
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('Shift+F10');
  await expect(east).toBeFocused();
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('ContextMenu');
  await expect(east).toBeFocused();
  expect(await undoLabel(page)).toBeNull();
});
