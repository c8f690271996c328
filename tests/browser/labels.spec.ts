// The labels of the plan: on every demo site and screen none lies on another, under a control, or on the scale bar, and
// every shortfall is named.
import { expect, test, type Page } from '@playwright/test';
import { finger, mouse } from './hand.ts';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, openDemo, openStep, settled, shellOnScreen } from './site.ts';

type Corner = [number, number];

interface Box {
  what: string;
  corners: Corner[];
}

interface Laid {
  labels: Box[];
  controls: Box[];
  crowded: string[];
  width: number;
  height: number;
}

/** The labels as painted, and the controls over the plan, in css pixels of the canvas. */
async function laid(page: Page): Promise<Laid> {
  return page.evaluate(() => {
    const canvas = document.querySelector('.plan-canvas')!.getBoundingClientRect();
    const placed = window.bench.ask((p) => p.placed_labels(), []);
    const over = [...document.querySelectorAll('.plan-sheet button')].flatMap((it) => {
      const box = it.getBoundingClientRect();
      if (box.width === 0) return [];
      const [left, right] = [box.left - canvas.left, box.right - canvas.left];
      const [top, bottom] = [box.top - canvas.top, box.bottom - canvas.top];
      const corners: [number, number][] = [
        [left, top],
        [right, top],
        [right, bottom],
        [left, bottom],
      ];
      return [{ what: it.textContent ?? '', corners }];
    });
    return {
      labels: placed.map(({ text, corners }) => ({ what: text, corners })),
      controls: over,
      crowded: placed.filter((it) => it.crowded).map((it) => it.text),
      width: canvas.width,
      height: canvas.height,
    };
  });
}

/** Whether a line along some edge of the first separates two convex boxes. */
function parted(a: Corner[], b: Corner[]): boolean {
  return a.some(([x, y], i) => {
    const [u, v] = a[(i + 1) % a.length]!;
    const [nx, ny] = [v - y, x - u];
    const side = ([p, q]: Corner) => (p - x) * nx + (q - y) * ny;
    const own = Math.sign(a.map(side).reduce((most, s) => (Math.abs(s) > Math.abs(most) ? s : most), 0));
    const slack = 0.01 * Math.hypot(nx, ny);
    return b.every((p) => side(p) * own <= slack);
  });
}

const apart = (a: Box, b: Box): boolean => parted(a.corners, b.corners) || parted(b.corners, a.corners);

/** What lies on what, and what is not all on the canvas. */
async function faults(page: Page): Promise<string[]> {
  const { labels, controls, crowded, width, height } = await laid(page);
  expect(labels.length).toBeGreaterThan(0);
  expect(controls.length).toBeGreaterThan(0);
  const off = labels.filter((it) => it.corners.some(([x, y]) => x < 0 || y < 0 || x > width || y > height));
  const pairs = labels.flatMap((a, i) => [...labels.slice(i + 1), ...controls].map((b) => [a, b] as const));
  const met = pairs.filter(([a, b]) => !apart(a, b)).map(([a, b]) => `${a.what} on ${b.what}`);
  return [...met, ...off.map((it) => `${it.what} off the plan`), ...crowded.map((it) => `${it} crowded`)];
}

/** How many corners of the lot lie under a control. */
async function cornersUnderControls(page: Page): Promise<number> {
  const { controls } = await laid(page);
  const corners = await page.evaluate(() =>
    window.bench.ask((p) => (p.settings().lot.courses ?? []).map((_, course) => Array.from(p.corner(course))), [] as number[][]),
  );
  expect(corners.length).toBeGreaterThan(2);
  const view = await page.evaluate(() => window.bench.view());
  const under = corners.filter(([x = 0, y = 0]) => {
    const [px, py] = [view.width / 2 + (x - view.x) * view.scale, view.height / 2 - (y - view.y) * view.scale];
    return controls.some(({ corners }) => {
      const [left, top] = corners[0]!;
      const [right, bottom] = corners[2]!;
      return px > left && px < right && py > top && py < bottom;
    });
  });
  return under.length;
}

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    for (const file of DEMO_SITES) {
      test(`${file} at rest, with a step open, closer, and under a hand`, async ({ page }) => {
        await openDemo(page, file);
        expect(await faults(page)).toEqual([]);
        const short = await page.evaluate(() =>
          window.bench.ask((p) => p.ledger(0, null).clearances.filter((it) => it.margin === 'short').flatMap((it) => it.rows).map((row) => row.distance.text), []),
        );
        const { labels } = await laid(page);
        // The plan shows one dimension to each thing: the shortest of the rules that speak of it.
        if (short.length > 0) expect(labels.some((it) => short.includes(it.what))).toBe(true);

        expect(await cornersUnderControls(page)).toBe(0);

        await openStep(page, 'Dig');
        expect(await faults(page)).toEqual([]);
        const zoomIn = page.getByRole('button', { name: 'Zoom in' });
        if (await zoomIn.isVisible()) {
          await zoomIn.click();
          await settled(page);
          expect(await faults(page)).toEqual([]);
        }
        await page.getByRole('button', { name: 'Show the whole lot' }).click();
        await settled(page);
        const hand = hasTouch ? await finger(page) : mouse(page);
        const start = await shellOnScreen(page);
        await hand.down(start);
        for (const [x, y] of [
          [12, 8],
          [30, 14],
          [8, 40],
        ] as const) {
          await hand.to({ x: start.x + x, y: start.y + y });
          await settled(page);
          expect(await faults(page)).toEqual([]);
        }
        await hand.up();
        await settled(page);
        expect(await faults(page)).toEqual([]);
      });
    }
  });
}

test('what is left out comes back closer', async ({ page }) => {
  await openDemo(page, DEMO_SITES[0] ?? '');
  const texts = async () => new Set((await laid(page)).labels.map((it) => it.what));
  const before = await texts();
  for (let i = 0; i < 2; i += 1) await page.getByRole('button', { name: 'Zoom in' }).click();
  await settled(page);
  const after = await texts();
  expect([...after].filter((text) => !before.has(text)).length).toBeGreaterThan(0);
});
