// Drawing on the plan: a lot by taps and by typed figures, corners and edges dragged, added and taken out, arcs,
// rectangles, square-up, and the reasons why a point lies where it does; with a mouse, a finger and keys alone.
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { finger, mouse, type Hand } from './hand.ts';
import { smallTargets } from './access.ts';
import { SCREENS } from './screens.ts';
import { onScreen, openDemo, openStep, savedText, settled } from './site.ts';

type Pair = [number, number];

/** A lot of four straight sides. */
const LEVEL = 'level-suburban.json';
const RESULTS = join(import.meta.dirname, 'results');

interface Saved {
  lot: { start: Pair; courses: { kind?: string; shape: Record<string, Record<string, number>> }[] };
  features: { id: string; kind: string; shape: { area?: number[][]; track?: number[][] } }[];
}

const saved = async (page: Page): Promise<Saved> => JSON.parse(await savedText(page)) as Saved;
const bar = (page: Page) => page.getByRole('region', { name: 'Drawing' });
const shapeBar = (page: Page) => page.getByRole('region', { name: 'Changing a shape' });

/** Waits until the plan stays where it is. */
async function steady(page: Page): Promise<void> {
  const view = () => page.evaluate(() => JSON.stringify(window.bench.view()));
  for (let last = ''; last !== (last = await view()); ) await settled(page);
}

async function tap(page: Page, hand: Hand, at: Pair): Promise<void> {
  await steady(page);
  const spot = await onScreen(page, at);
  await hand.down(spot);
  await hand.up();
  await settled(page);
}

async function drag(page: Page, hand: Hand, from: Pair, to: Pair): Promise<void> {
  await steady(page);
  await hand.down(await onScreen(page, from));
  await hand.to(await onScreen(page, to));
  await hand.up();
  await settled(page);
}

async function beginLot(page: Page): Promise<void> {
  await openDemo(page, LEVEL);
  await openStep(page, 'Lot');
  await page.getByRole('button', { name: 'Draw the lot', exact: true }).click();
  await expect(bar(page)).toBeVisible();
  await settled(page);
}

/** The corner of this index, which must be there. */
function the(corners: Pair[], index: number): Pair {
  const corner = corners[index];
  if (!corner) throw new Error(`no corner ${index} among ${corners.length}`);
  return corner;
}

/** Where the lot's corners are, from its courses. */
async function lotCorners(page: Page): Promise<Pair[]> {
  const { lot } = await saved(page);
  let [x, y] = lot.start;
  return lot.courses.map(({ shape }) => {
    const corner: Pair = [x, y];
    const [bearing, length] = shape['line']
      ? [shape['line']['bearing'] ?? 0, shape['line']['distance'] ?? 0]
      : [shape['curve']?.['chord_bearing'] ?? 0, shape['curve']?.['chord'] ?? 0];
    x += length * Math.sin(bearing);
    y += length * Math.cos(bearing);
    return corner;
  });
}

for (const device of ['mouse', 'finger'] as const) {
  test.describe(device, () => {
    test.use({ hasTouch: device === 'finger' });

    test('a lot is drawn by taps, with its reasons shown', async ({ page }) => {
      await beginLot(page);
      const hand = device === 'mouse' ? mouse(page) : await finger(page);
      const before = await savedText(page);
      for (const at of [[2, 2], [24, 3], [22, 30]] as Pair[]) await tap(page, hand, at);
      if (device === 'mouse') {
        // Straight above the second point the stretch is square to something or parallel to it, and says so.
        const spot = await onScreen(page, [4, 31]);
        await page.mouse.move(spot.x, spot.y);
        await settled(page);
        await expect(bar(page).locator('.draw-figures')).toContainText("'-");
      }
      await tap(page, hand, [3, 28]);
      expect(await savedText(page), 'nothing is in the document yet').toBe(before);
      await page.getByRole('button', { name: 'Back one point' }).click();
      await tap(page, hand, [3, 29]);
      await bar(page).getByRole('button', { name: 'Close it' }).click();
      await settled(page);
      await expect(bar(page)).toHaveCount(0);
      expect((await saved(page)).lot.courses).toHaveLength(4);
      await page.getByRole('button', { name: 'Undo: draw the lot' }).click();
      expect(await savedText(page)).toBe(before);
    });

    test('corners and edges of the lot are dragged, added and taken out', async ({ page }) => {
      await openDemo(page, LEVEL);
      await openStep(page, 'Lot');
      await page.getByRole('button', { name: 'Change its corners' }).click();
      await expect(shapeBar(page)).toContainText('Changing the lot');
      await settled(page);
      const hand = device === 'mouse' ? mouse(page) : await finger(page);
      const text = await savedText(page);
      const kinds = (await saved(page)).lot.courses.map((course) => course.kind);
      const corners = await lotCorners(page);
      const corner = the(corners, 2);
      await drag(page, hand, corner, [corner[0] - 1.5, corner[1] - 1.2]);
      await expect(shapeBar(page)).toContainText(`corner 3 of ${corners.length}`);
      const off = async (): Promise<number> => {
        const moved = the(await lotCorners(page), 2);
        return Math.hypot(moved[0] - corner[0] + 1.5, moved[1] - corner[1] + 1.2);
      };
      await expect.poll(off).toBeLessThan(1);
      expect((await saved(page)).lot.courses.map((course) => course.kind)).toEqual(kinds);
      await page.getByRole('button', { name: 'Undo: move corner' }).click();
      expect(await savedText(page)).toBe(text);

      // An edge keeps its direction.
      const [a, b] = [the(corners, 1), the(corners, 2)];
      const near: Pair = [a[0] + (b[0] - a[0]) * 0.27, a[1] + (b[1] - a[1]) * 0.27];
      await drag(page, hand, near, [near[0] - 1.4, near[1] + 0.2]);
      await expect(page.getByRole('button', { name: 'Undo: move edge' })).toBeVisible();
      await page.getByRole('button', { name: 'Undo: move edge' }).click();

      const middle: Pair = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      await drag(page, hand, middle, [middle[0] - 1.3, middle[1]]);
      const courses = async (): Promise<number> => (await saved(page)).lot.courses.length;
      await expect.poll(courses).toBe(corners.length + 1);
      await shapeBar(page).getByRole('button', { name: 'Remove the corner' }).click();
      await expect.poll(courses).toBe(corners.length);
      await shapeBar(page).getByRole('button', { name: 'Done' }).click();
      await expect(shapeBar(page)).toHaveCount(0);
    });
  });
}

test('a refused corner stays at its last good place and says why', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openStep(page, 'Lot');
  await page.getByRole('button', { name: 'Change its corners' }).click();
  await expect(shapeBar(page)).toBeVisible();
  await settled(page);
  const corners = await lotCorners(page);
  const [a, c] = [the(corners, 0), the(corners, 2)];
  const hand = mouse(page);
  await steady(page);
  await hand.down(await onScreen(page, c));
  // Over the opposite corner and out: the outline would cross itself.
  await hand.to(await onScreen(page, [2 * a[0] - c[0] + 20, 2 * a[1] - c[1] + 36]));
  await hand.to(await onScreen(page, [a[0] - 3, a[1] + 1]));
  await settled(page);
  await expect(shapeBar(page).getByRole('alert')).not.toBeEmpty();
  await hand.up();
  await settled(page);
  expect((await saved(page)).lot.courses).toHaveLength(corners.length);
});

test('a lot is entered by keys alone: lengths, bearings and turns', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openStep(page, 'Lot');
  await page.getByRole('button', { name: 'Draw the lot', exact: true }).focus();
  await page.keyboard.press('Enter');
  await expect(bar(page)).toBeVisible();
  await expect(page.locator('.plan-canvas')).toBeFocused();
  await test.step('two boxes typed within one frame keep what each was given', async () => {
    const boxes = bar(page).locator('.draw-typing input');
    await boxes.evaluateAll((inputs: HTMLInputElement[]) => {
      for (const [place, input] of inputs.entries()) {
        input.value = String(place + 3);
        input.dispatchEvent(new InputEvent('input', { bubbles: true }));
      }
    });
    await settled(page);
    await expect(boxes).toHaveCount(2);
    for (const place of [0, 1]) {
      await expect(boxes.nth(place)).toHaveValue(String(place + 3));
      await boxes.nth(place).fill('');
    }
    await page.locator('.plan-canvas').focus();
  });
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.type("10'");
  await expect(page.getByLabel('East', { exact: true })).toHaveValue("10'");
  await page.keyboard.press('Tab');
  await page.keyboard.type('-5 ft');
  await page.keyboard.press('Enter');
  await page.locator('.plan-canvas').focus();
  // A figure goes into its box at once.
  await page.keyboard.type("80'");
  const length = page.getByLabel('Length', { exact: true });
  await expect(length).toHaveValue("80'");
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.type('N 90 E');
  await expect(bar(page).locator('.draw-figures')).toContainText("80'-0\"");
  await page.keyboard.press('Enter');
  for (const figure of ['100', '80']) {
    await expect(length).toBeFocused();
    await page.keyboard.type(figure);
    await page.keyboard.press('Tab');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Tab');
    await page.keyboard.type('90');
    await expect(bar(page).locator('.draw-figures')).toContainText('90.00° left');
    await page.keyboard.press('Enter');
  }
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('c');
  await settled(page);
  const { lot } = await saved(page);
  expect(lot.start[0]).toBeCloseTo(10 * 0.3048, 9);
  expect(lot.start[1]).toBeCloseTo(-5 * 0.3048, 9);
  const lengths = lot.courses.map(({ shape }) => (shape['line']?.['distance'] ?? 0) / 0.3048);
  expect(lengths.map((it) => Math.round(it * 1e6) / 1e6)).toEqual([80, 100, 80, 100]);
});

test('Escape and Cancel give the drawing up; Ctrl+Z takes points back', async ({ page }) => {
  await beginLot(page);
  const before = await savedText(page);
  const hand = mouse(page);
  await tap(page, hand, [4, 4]);
  await tap(page, hand, [12, 5]);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await expect(bar(page)).toContainText('Mark where it begins');
  await page.keyboard.press('Escape');
  await expect(bar(page)).toHaveCount(0);
  await page.getByRole('button', { name: 'Draw the lot', exact: true }).click();
  await bar(page).getByRole('button', { name: 'Cancel' }).click();
  await expect(bar(page)).toHaveCount(0);
  expect(await savedText(page)).toBe(before);
});

test('an arc by three points and a rectangle', async ({ page }) => {
  await beginLot(page);
  const hand = mouse(page);
  await page.keyboard.press('s');
  await expect(page.locator('.notice')).toHaveCount(0);
  await tap(page, hand, [2, 2]);
  await tap(page, hand, [20, 2]);
  await page.getByRole('button', { name: 'Arc', exact: true }).click();
  await tap(page, hand, [24, 12]);
  await expect(bar(page)).toContainText('Mark where the arc ends');
  await tap(page, hand, [20, 22]);
  await page.getByRole('button', { name: 'Straight', exact: true }).click();
  await tap(page, hand, [2, 22]);
  await page.screenshot({ path: join(RESULTS, 'draw-arc.png') });
  await page.getByRole('button', { name: 'Close it' }).click();
  await settled(page);
  const curve = (await saved(page)).lot.courses[1]?.shape['curve'];
  // Three points at a chord of 20 m and a rise of 4 m: the radius is (c2/4 + h2) / 2h, to the pixel tapped.
  expect(curve?.['radius'] ?? 0).toBeGreaterThan(13.9);
  expect(curve?.['radius'] ?? 0).toBeLessThan(15.1);

  await page.getByRole('button', { name: 'Draw the lot', exact: true }).click();
  await tap(page, hand, [3, 3]);
  await page.getByRole('button', { name: 'Rectangle', exact: true }).click();
  await tap(page, hand, [25, 31]);
  await settled(page);
  const { lot } = await saved(page);
  expect(lot.courses).toHaveLength(4);
  const [one, two] = lot.courses.map(({ shape }) => shape['line']?.['bearing'] ?? 0);
  expect(Math.abs(Math.cos((one ?? 0) - (two ?? 0)))).toBeLessThan(1e-9);
});

test('a shape is changed by keys alone', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openStep(page, 'Lot');
  await page.getByRole('button', { name: 'Change its corners' }).focus();
  await page.keyboard.press('Enter');
  await expect(shapeBar(page)).toBeVisible();
  await expect(page.locator('.plan-canvas')).toBeFocused();
  const text = await savedText(page);
  const before = await lotCorners(page);
  await page.keyboard.press('n');
  await expect(shapeBar(page)).toContainText(`corner 1 of ${before.length}`);
  await page.keyboard.press('Shift+ArrowUp');
  const moved = the(await lotCorners(page), 0);
  expect(moved[1] - (before[0]?.[1] ?? 0)).toBeCloseTo(0.3048, 9);
  await page.keyboard.press('q');
  await expect(shapeBar(page).getByRole('alert')).toContainText('square');
  await page.keyboard.press('n');
  await expect(shapeBar(page)).toContainText('edge 1 of');
  await page.getByLabel('Its length').fill("101'");
  await page.getByLabel('Its length').press('Enter');
  const shape = (await saved(page)).lot.courses[0]?.shape;
  expect(shape?.['line']?.['distance'] ?? 0).toBeCloseTo(101 * 0.3048, 9);
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('b');
  expect((await saved(page)).lot.courses[0]?.shape).toHaveProperty('curve');
  await page.keyboard.press('b');
  await page.keyboard.press('i');
  expect(await lotCorners(page)).toHaveLength(before.length + 1);
  await page.keyboard.press('Delete');
  expect(await lotCorners(page)).toHaveLength(before.length);
  await page.keyboard.press('Escape');
  await expect(shapeBar(page)).toHaveCount(0);
  for (let i = 0; i < 7; i += 1) await page.keyboard.press('Control+z');
  await settled(page);
  expect(await savedText(page)).toBe(text);
});

/** Faults of access, and targets too small for the hand at the screen, in the bar over the plan. */
async function barFaults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).include('.draw-bar').analyze();
  const small = await smallTargets(page, '.draw-bar');
  return [...violations.map(({ id, help }) => `${id}: ${help}`), ...small];
}

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch, deviceScaleFactor: hasTouch ? 2 : 1 });

    test('how drawing looks', async ({ page }) => {
      await beginLot(page);
      const hand = hasTouch ? await finger(page) : mouse(page);
      await tap(page, hand, [6, 8]);
      await tap(page, hand, [22, 9]);
      await hand.down(await onScreen(page, [16, 16]));
      await hand.to(await onScreen(page, [21, 22]));
      await settled(page);
      await page.screenshot({ path: join(RESULTS, `draw-${name}.png`) });
      expect(await barFaults(page)).toEqual([]);
      await hand.up();
      await page.keyboard.press('Escape');
      await settled(page);
      const cancel = bar(page).getByRole('button', { name: 'Cancel' });
      if (await cancel.isVisible()) await cancel.click();
      await expect(bar(page)).toHaveCount(0);
      await openStep(page, 'Lot');
      await page.getByRole('button', { name: 'Change its corners' }).click();
      await expect(shapeBar(page)).toBeVisible();
      await settled(page);
      const corner = the(await lotCorners(page), 1);
      await tap(page, hand, corner);
      await page.screenshot({ path: join(RESULTS, `shape-${name}.png`) });
      expect(await barFaults(page)).toEqual([]);
    });
  });
}

/** Opens the walk of a new house. */
async function beginWalk(page: Page) {
  await openDemo(page, LEVEL);
  await openStep(page, 'Yard');
  await page.getByText('Add something').click();
  await page.getByText('Walk it wall by wall').click();
  return page.getByLabel('The walk', { exact: true });
}

test('a house is walked wall by wall, squared up and put on the lot', async ({ page }) => {
  const box = await beginWalk(page);
  const before = await savedText(page);
  await page.getByLabel('Start, east').fill("10'");
  await page.getByLabel('Start, north').fill("60'");
  await box.fill('forward 24\', left 90°, forward 12\'6", right 91, forward 12\', left, forward 17\'6", left, forward 36\', close');
  const understood = page.getByRole('group', { name: 'What was understood of the walk' });
  await expect(understood).toContainText("forward 24' [wall 1: forward 24'-0\"]");
  await expect(understood).toContainText('right 91 [right 91.00°]');
  await expect(page.locator('.walk-figures')).toContainText('6 walls');
  await page.getByRole('button', { name: 'Square it up' }).click();
  await expect(page.locator('.walk-figures')).toContainText('6 walls are square');
  await page.screenshot({ path: join(RESULTS, 'walk-1280x800.png') });
  expect(await savedText(page), 'nothing is in the document yet').toBe(before);
  await page.getByRole('button', { name: 'Put the house on the lot' }).click();
  await settled(page);
  const area = (await saved(page)).features.at(-1)?.shape.area ?? [];
  expect(area).toHaveLength(6);
  for (const [i, [x = 0, y = 0]] of area.entries()) {
    const [nx = 0, ny = 0] = area[(i + 1) % area.length] ?? [];
    expect(Math.min(Math.abs(nx - x), Math.abs(ny - y))).toBeLessThan(0.15);
  }
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await savedText(page)).toBe(before);
});

test('what a walk does not say is told and never guessed', async ({ page }) => {
  const box = await beginWalk(page);
  await box.fill("forward 24'\nright 12'\nforward 20'");
  await expect(page.getByText('line 2:')).toBeVisible();
  await expect(page.locator('.deed-piece[data-kind="fault"]').first()).toContainText('not used');
  await expect(page.getByRole('button', { name: 'Put the house on the lot' })).toBeDisabled();
  await box.fill("forward 24', right, forward 20'");
  await expect(page.getByText('does not come back to its start')).toBeVisible();
});

test('a feature is drawn, moved whole, squared and refused while locked', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openStep(page, 'Yard');
  await page.getByText('Add something').click();
  await page.getByLabel('What it is').selectOption('outbuilding');
  await page.getByLabel('Its shape').selectOption('area');
  await page.getByRole('button', { name: 'Draw it', exact: true }).click();
  await expect(bar(page)).toContainText('Draw the outbuilding');
  await settled(page);
  const hand = mouse(page);
  await page.getByRole('button', { name: 'Snap', exact: true }).click();
  for (const at of [[3, 14], [7, 14.3], [7.2, 17.2], [3.1, 17]] as Pair[]) await tap(page, hand, at);
  await page.getByRole('button', { name: 'Close it' }).click();
  await settled(page);
  const feature = (await saved(page)).features.at(-1);
  expect(feature?.kind).toBe('outbuilding');
  const card = page.locator(`[data-feature="${feature?.id ?? ''}"]`);
  await card.getByText('Shape and place').click();
  await card.getByRole('button', { name: 'Change its shape' }).click();
  await expect(shapeBar(page)).toBeVisible();
  await settled(page);
  await shapeBar(page).getByRole('button', { name: 'Square up' }).click();
  await expect(shapeBar(page).getByRole('alert')).toContainText('4 edges are square');
  const square = (await saved(page)).features.at(-1)?.shape.area ?? [];
  await drag(page, hand, [5.1, 15.6], [6.1, 16.6]);
  const moved = (await saved(page)).features.at(-1)?.shape.area ?? [];
  expect((moved[0]?.[0] ?? 0) - (square[0]?.[0] ?? 0)).toBeCloseTo(1, 0);
  await page.screenshot({ path: join(RESULTS, 'shape-feature.png') });
  await card.getByRole('button', { name: 'Lock' }).click();
  const text = await savedText(page);
  await drag(page, hand, [6.1, 16.6], [7.1, 16.6]);
  expect(await savedText(page)).toBe(text);
});
