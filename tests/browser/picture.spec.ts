// A picture under the plan: brought in by file and by paste, laid to scale, turned, faded, locked, kept, and
// taken back; by mouse, finger and keyboard. What is no picture or too much of one is refused.
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { finger, mouse, type Hand } from './hand.ts';
import { photograph } from './photograph.ts';
import { DEMO_SITES, keptOnDevice, onScreen, openDemo, openStep, savedText, settled, shellOnScreen, standing } from './site.ts';
import { SCREENS } from './screens.ts';

// Pages are opened again here, as they are kept on the device.
test.use({ serviceWorkers: 'allow' });

interface Picture {
  name: string;
  media: string;
  data: string;
  width: number;
  height: number;
  at: [number, number];
  scale: number;
  heading: number;
  opacity: number;
  locked?: boolean;
  hidden?: boolean;
}

const pictureOf = async (page: Page): Promise<Picture | undefined> =>
  (JSON.parse(await savedText(page)) as { picture?: Picture }).picture;

async function laid(page: Page): Promise<Picture> {
  const picture = await pictureOf(page);
  if (!picture) throw new Error('there is no picture');
  return picture;
}

/** A plat-like picture: black lines on white, with a solid red ground in one corner. */
async function plat(page: Page, width = 900, height = 600): Promise<Buffer> {
  const url = await page.evaluate(
    ([wide, tall]) => {
      const canvas = document.createElement('canvas');
      canvas.width = wide;
      canvas.height = tall;
      const pen = canvas.getContext('2d')!;
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, wide, tall);
      pen.lineWidth = 4;
      pen.strokeRect(wide * 0.1, tall * 0.1, wide * 0.8, tall * 0.8);
      pen.fillStyle = '#c00000';
      pen.fillRect(wide * 0.3, tall * 0.3, wide * 0.4, tall * 0.4);
      return canvas.toDataURL('image/png');
    },
    [width, height] as const,
  );
  return Buffer.from(url.replace(/^[^,]*,/, ''), 'base64');
}

async function open(page: Page): Promise<void> {
  await openDemo(page, DEMO_SITES[0] ?? '');
  await openStep(page, 'Lot');
  await page.getByText('Picture under the plan').click();
}

async function choose(page: Page, name: string, mimeType: string, buffer: Buffer): Promise<void> {
  await page.locator('input[data-picture="file"]').setInputFiles({ name, mimeType, buffer });
}

async function add(page: Page): Promise<Picture> {
  await choose(page, 'plat.png', 'image/png', await plat(page));
  await expect(page.locator('.picture-words')).toContainText('900 by 600 pixels');
  await settled(page);
  return laid(page);
}

/** How many of these places of the site are red on the plan. */
function reds(page: Page, places: [number, number][]): Promise<number> {
  return page.locator('.plan-canvas').evaluate((it: HTMLCanvasElement, all) => {
    const view = window.bench.view();
    const ratio = it.width / view.width;
    const pen = it.getContext('2d')!;
    const red = all.filter(([x, y]) => {
      const across = (view.width / 2 + (x - view.x) * view.scale) * ratio;
      const down = (view.height / 2 - (y - view.y) * view.scale) * ratio;
      const [r = 0, g = 0, b = 0] = pen.getImageData(across, down, 1, 1).data;
      return r > 180 && g < 120 && b < 120;
    });
    return red.length;
  }, places);
}

/** Where a pixel of the picture lies on the site, worked out here: upper edge facing `heading`. */
function siteFrom(picture: Picture, x: number, y: number): [number, number] {
  const [u, v] = [(x - picture.width / 2) * picture.scale, (picture.height / 2 - y) * picture.scale];
  const [sin, cos] = [Math.sin(picture.heading), Math.cos(picture.heading)];
  return [picture.at[0] + u * cos + v * sin, picture.at[1] - u * sin + v * cos];
}

async function tap(page: Page, hand: Hand, at: [number, number]): Promise<void> {
  // A bar that has just come over the plan leaves it less room.
  await settled(page);
  const spot = await onScreen(page, at);
  await hand.down(spot);
  await hand.up();
  await settled(page);
}

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('a plat is laid by two points, faded, locked, kept and taken back', async ({ page }) => {
      await open(page);
      const empty = await savedText(page);
      const added = await add(page);
      expect(added).toMatchObject({ name: 'plat.png', width: 900, height: 600, heading: 0, opacity: 0.7 });
      await expect(page.locator('.picture .caution')).toContainText('no survey');

      // Two points of the picture, 720 pixels apart along its width.
      const hand = hasTouch ? await finger(page) : mouse(page);
      await page.getByRole('button', { name: 'Pick two points of the picture' }).click();
      const first = siteFrom(added, 300, 200);
      await tap(page, hand, first);
      await tap(page, hand, siteFrom(added, 600, 200));
      const distance = page.getByLabel('Known distance between them');
      await distance.fill("100'");
      await distance.press('Enter');
      await page.screenshot({ path: `results/picture-scale-${name}.png` });
      const { violations } = await new AxeBuilder({ page }).include('.picture').analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      const sides = await page
        .locator('.picture :is(button, summary, input:not([type="file"]))')
        .evaluateAll((all) => all.map((it) => Math.min(it.getBoundingClientRect().height, it.getBoundingClientRect().width)));
      expect(Math.min(...sides)).toBeGreaterThanOrEqual(hasTouch ? 43.5 : 32);
      await page.getByRole('button', { name: 'Lay the picture' }).click();
      await settled(page);
      const scaled = await laid(page);
      // A tap is as good as a pixel of the screen.
      expect(scaled.scale * 300).toBeGreaterThan(30.48 * 0.97);
      expect(scaled.scale * 300).toBeLessThan(30.48 * 1.03);
      const stayed = siteFrom(scaled, 300, 200);
      expect(Math.hypot(stayed[0] - first[0], stayed[1] - first[1])).toBeLessThan(1);
      expect(scaled.data).toBe(added.data);

      await page.getByRole('button', { name: 'Turn right by 90°' }).click();
      expect((await laid(page)).heading).toBeCloseTo(Math.PI / 2, 9);
      await page.getByRole('button', { name: 'Turn left by 1°', exact: true }).click();
      expect((await laid(page)).heading).toBeCloseTo((89 * Math.PI) / 180, 9);
      const faces = page.getByLabel('Upper edge faces');
      await faces.fill('12°');
      await faces.press('Enter');
      expect((await laid(page)).heading).toBeCloseTo((12 * Math.PI) / 180, 9);

      const slider = page.getByLabel('How much of it shows');
      await slider.focus();
      await slider.press('ArrowRight');
      await expect(slider).toHaveValue('0.75');
      await expect(page.locator('.fade output')).toHaveText('75 %');
      expect((await laid(page)).opacity).toBeCloseTo(0.75, 9);

      await page.getByRole('button', { name: 'Locked' }).click();
      await expect(page.getByRole('button', { name: 'Pick two points of the picture' })).toHaveCount(0);
      await settled(page);
      await page.screenshot({ path: `results/picture-${name}.png` });
      const kept = await savedText(page);

      await keptOnDevice(page);
      await page.reload();
      await expect(page.locator('.clearance').first()).toBeVisible();
      await settled(page);
      expect(await savedText(page)).toBe(kept);

      // What the file holds opens as the same, and the first undo after it finds nothing.
      await page.evaluate((text) => window.bench.ask((p) => p.open(text), { ok: false, findings: [] }), kept);
      expect(await savedText(page)).toBe(kept);
      expect(empty).not.toContain('"picture"');
    });
  });
}

test('every edit is one step, there and back', async ({ page }) => {
  await open(page);
  const empty = await savedText(page);
  await add(page);
  const added = await savedText(page);
  await page.getByRole('button', { name: 'Hidden' }).click();
  await page.getByRole('button', { name: 'Remove the picture' }).click();
  expect(await pictureOf(page)).toBeUndefined();
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('Control+z');
  expect((await laid(page)).hidden).toBe(true);
  await page.keyboard.press('Control+z');
  expect(await savedText(page)).toBe(added);
  await page.keyboard.press('Control+z');
  expect(await savedText(page)).toBe(empty);
  await page.keyboard.press('Control+y');
  expect(await savedText(page)).toBe(added);
});

test('it is painted over the ground of the lot, and again after a reload', async ({ page }) => {
  await open(page);
  const added = await add(page);
  // On the red ground of the picture; here and there something of the site lies over it.
  const places = Array.from({ length: 120 }, (_, i) => siteFrom(added, 280 + (i % 12) * 28, 190 + Math.floor(i / 12) * 24));
  await expect.poll(() => reds(page, places)).toBeGreaterThan(20);
  await keptOnDevice(page);
  await page.reload();
  await expect(page.locator('.clearance').first()).toBeVisible();
  await expect.poll(() => reds(page, places)).toBeGreaterThan(20);
  await openStep(page, 'Lot');
  await page.getByRole('button', { name: 'Hidden' }).click();
  await expect.poll(() => reds(page, places)).toBe(0);
});

test('what is pasted is taken, and text is left to the boxes', async ({ page }) => {
  await open(page);
  const bytes = [...(await plat(page, 400, 300))];
  await page.evaluate((all) => {
    const data = new DataTransfer();
    data.items.add(new File([new Uint8Array(all)], 'image.png', { type: 'image/png' }));
    document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  }, bytes);
  await expect(page.locator('.picture-words')).toContainText('Pasted picture: 400 by 300 pixels');
  const before = await savedText(page);
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData('text/plain', 'N 0 E 100');
    document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  });
  await settled(page);
  expect(await savedText(page)).toBe(before);
});

test('what is no picture, or too much of one, is refused with what to do', async ({ page }) => {
  await open(page);
  const before = await savedText(page);
  await choose(page, 'notes.png', 'image/png', Buffer.from('no picture at all'));
  await expect(page.getByText('This is no picture that the browser can read.')).toBeVisible();
  await page.keyboard.press('Escape');
  await choose(page, 'huge.png', 'image/png', Buffer.alloc(25_000_001));
  await expect(page.getByText('at most 25.0 MB are read')).toBeVisible();
  expect(await savedText(page)).toBe(before);
});

test('a large photograph is made small enough, and a drag with it sends none of it about', async ({ page }) => {
  await open(page);
  await choose(page, 'aerial.jpg', 'image/jpeg', await photograph(page));
  await expect(page.locator('.picture-words')).toContainText('aerial.jpg', { timeout: 30_000 });
  const picture = await laid(page);
  expect(Math.max(picture.width, picture.height)).toBeLessThanOrEqual(2000);
  expect(picture.data.length).toBeLessThanOrEqual((1_500_000 * 4) / 3 + 4);
  // Forms see nothing of the data, and neither does what is kept after each edit, nor what a frame of a drag takes over.
  const lengths = await page.evaluate(() =>
    window.bench.ask(
      (p) => {
        const shell = p.ledger(0, null).shell;
        if (!shell || p.grab(shell.at[0], shell.at[1], 0.1, 20) !== 'shell') return [];
        p.drag_to(shell.at[0] + 0.2, shell.at[1], false);
        const frame = [p.ledger(0, null), p.tally()].map((it) => JSON.stringify(it).length);
        p.cancel();
        return [JSON.stringify(p.settings()).length, p.save_bare().length, ...frame];
      },
      [] as number[],
    ),
  );
  expect(lengths).toHaveLength(4);
  expect(Math.max(...lengths)).toBeLessThan(200_000);
  // And a drag by hand leaves the picture as it was.
  const before = await standing(page);
  const { x, y } = await shellOnScreen(page);
  const hand = mouse(page);
  await hand.down({ x, y });
  await hand.to({ x: x + 30, y: y + 20 });
  await hand.up();
  await settled(page);
  expect((await standing(page)).at).not.toEqual(before.at);
  expect(await laid(page)).toEqual(picture);
});

test('it is moved and turned by hand until it is locked', async ({ page }) => {
  await open(page);
  const added = await add(page);
  // Somewhere on the plan where nothing but the picture is held.
  const from = await page.evaluate(() => {
    const view = window.bench.view();
    const box = document.querySelector('.plan-canvas')!.getBoundingClientRect();
    for (let x = 60; x < view.width - 60; x += 15) {
      for (let y = 150; y < view.height - 150; y += 15) {
        const at = [view.x + (x - view.width / 2) / view.scale, view.y - (y - view.height / 2) / view.scale] as const;
        const held = window.bench.ask((p) => p.hover(...at, 10 / view.scale, view.scale), undefined);
        if (held === 'picture') return { x: box.left + x, y: box.top + y };
      }
    }
    throw new Error('the picture is nowhere held');
  });
  const hand = mouse(page);
  await hand.down(from);
  await hand.to({ x: from.x + 30, y: from.y + 10 });
  await hand.up();
  await settled(page);
  const moved = await laid(page);
  const { scale } = await page.evaluate(() => window.bench.view());
  expect(moved.at[0] - added.at[0]).toBeCloseTo(30 / scale, 3);
  expect(moved.at[1] - added.at[1]).toBeCloseTo(-10 / scale, 3);
  await page.getByRole('button', { name: 'Locked' }).click();
  const locked = await savedText(page);
  await hand.down(from);
  await hand.to({ x: from.x + 60, y: from.y + 40 });
  await hand.up();
  await settled(page);
  expect(await savedText(page)).toBe(locked);
});

test('keys alone lay it', async ({ page }) => {
  await open(page);
  await add(page);
  const pick = page.getByRole('button', { name: 'Pick two points of the picture' });
  await pick.focus();
  await page.keyboard.press('Enter');
  // The hand stands in the middle of the plan; keys lead it, Enter places.
  await settled(page);
  for (let i = 0; i < 6; i += 1) await page.keyboard.press('Shift+ArrowLeft');
  await page.keyboard.press('Enter');
  await settled(page);
  for (let i = 0; i < 12; i += 1) await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('Enter');
  const distance = page.getByLabel('Known distance between them');
  await distance.focus();
  await page.keyboard.insertText('80 ft');
  await page.keyboard.press('Enter');
  const lay = page.getByRole('button', { name: 'Lay the picture' });
  await lay.focus();
  await page.keyboard.press('Enter');
  await expect(lay).toHaveCount(0);
  expect(await page.evaluate(() => window.bench.ask((p) => p.ledger(0, null).undo, null))).toBe('scale the picture');
});
