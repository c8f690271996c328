// The section under the plan: it runs along the shell, follows its line by mouse, finger and keys, follows the shell
// while that is dragged, and reads what the ledger reads.
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { finger, mouse, type Hand } from './hand.ts';
import { SCREENS } from './screens.ts';
import { onScreen, openDemo, openStep, savedText, settled, shellOnScreen } from './site.ts';

const SITE = 'sloping-hillside.json';
const RESULTS = join(import.meta.dirname, 'results');

type Ends = { from: [number, number]; to: [number, number] };

const panel = (page: Page) => page.getByRole('region', { name: 'Section' });
const button = (page: Page) => page.getByRole('button', { name: 'Section A–A′' });

async function open(page: Page): Promise<void> {
  await button(page).click();
  await expect(panel(page)).toBeVisible();
  await settled(page);
}

/** The line of the site file; none where it runs along the shell. */
const told = async (page: Page): Promise<Ends | undefined> =>
  (JSON.parse(await savedText(page)) as { section?: Ends }).section;

async function more(page: Page): Promise<void> {
  await panel(page).getByText('Figures and line').click();
  await settled(page);
}

const figure = (page: Page, label: string) =>
  panel(page).locator('.section-figures div').filter({ hasText: label }).first().locator('dd');

/** A field's text in meters, where the page shows feet and hundredths or feet and inches. */
const field = (page: Page, name: string) => panel(page).getByRole('textbox', { name });

/** The line as the fields have it, so that a hand can take it. */
async function typed(page: Page, ends: Ends): Promise<void> {
  for (const [name, value] of [
    ['A, to the east', ends.from[0]],
    ['A, to the north', ends.from[1]],
    ['A′, to the east', ends.to[0]],
    ['A′, to the north', ends.to[1]],
  ] as const) {
    await field(page, name).fill(`${value} m`);
    await field(page, name).press('Enter');
  }
  await settled(page);
}

test('the deepest of the section is the depth of the ledger on level ground', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  await open(page);
  await more(page);
  const depth = page.locator('.quantity', { hasText: 'Greatest depth of the hole' }).first();
  const text = await figure(page, 'depth of the hole, deepest').innerText();
  await expect(depth).toContainText(text);
});

test('typed ends and directions are edits, and undo', async ({ page }) => {
  await openDemo(page, SITE);
  await open(page);
  await more(page);
  expect(await told(page)).toBeUndefined();
  const back = panel(page).getByRole('button', { name: 'Back along the shell' });
  await expect(back).toBeDisabled();
  await field(page, 'Direction').fill('45');
  await field(page, 'Direction').press('Enter');
  await settled(page);
  const line = await told(page);
  if (!line) throw new Error('the line was not kept');
  expect(line.to[0] - line.from[0]).toBeCloseTo(line.to[1] - line.from[1], 6);
  await field(page, 'Length').fill('10 m');
  await field(page, 'Length').press('Enter');
  await settled(page);
  const shorter = await told(page);
  if (!shorter) throw new Error('the line was not kept');
  expect(Math.hypot(shorter.to[0] - shorter.from[0], shorter.to[1] - shorter.from[1])).toBeCloseTo(10, 6);
  await back.click();
  expect(await told(page)).toBeUndefined();
  await page.keyboard.press('Control+z');
  expect(await told(page)).toEqual(shorter);
});

test('two ends typed within one frame are both kept', async ({ page }) => {
  await openDemo(page, SITE);
  await open(page);
  await more(page);
  // The line is the site's own from here on.
  await field(page, 'A, to the east').fill('5 m');
  await field(page, 'A, to the east').press('Enter');
  await settled(page);
  await page.evaluate(() => {
    const box = (name: string) =>
      [...document.querySelectorAll<HTMLLabelElement>('.section-line label')]
        .find((it) => it.textContent === name)
        ?.parentElement?.querySelector('input');
    const typed = async (name: string, text: string) => {
      const it = box(name);
      if (!it) throw new Error(`no field ${name}`);
      it.value = text;
      it.dispatchEvent(new Event('input', { bubbles: true }));
      // Rendering waits for a microtask, painting for a frame.
      await Promise.resolve().then(() => Promise.resolve());
      it.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
    };
    return typed('A′, to the east', '21 m').then(() => typed('A′, to the north', '19 m'));
  });
  await settled(page);
  expect((await told(page))?.to.map((it) => Math.round(it * 100) / 100)).toEqual([21, 19]);
});

test('it follows the shell while that is dragged', async ({ page }) => {
  await openDemo(page, SITE);
  await open(page);
  await more(page);
  const before = await figure(page, 'coping above the ground').innerText();
  const shell = await shellOnScreen(page);
  const hand = mouse(page);
  await hand.down(shell);
  await hand.to({ x: shell.x, y: shell.y + 40 });
  await settled(page);
  await expect(figure(page, 'coping above the ground')).not.toHaveText(before);
  await page.keyboard.press('Escape');
  await settled(page);
  await expect(figure(page, 'coping above the ground')).toHaveText(before);
  await hand.up();
});

const hands: [string, boolean, (page: Page) => Promise<Hand>][] = [
  ['mouse', false, (page) => Promise.resolve(mouse(page))],
  ['finger', true, finger],
];
for (const [name, hasTouch, taken] of hands) {
  test.describe(name, () => {
    test.use({ hasTouch });

    test(`the line is pulled by its ends and its middle with a ${name}`, async ({ page }) => {
      await openDemo(page, SITE);
      await open(page);
      await more(page);
      const shell = (await page.evaluate(() => window.bench.ask((p) => p.ledger(0, null).shell, null)))!.at;
      const start: Ends = { from: [shell[0] - 9, shell[1] - 8], to: [shell[0] + 9, shell[1] - 8] };
      await typed(page, start);
      // Nearer, so that a finger's reach holds nothing else.
      for (let times = 0; times < 3; times += 1) await page.getByRole('button', { name: 'Zoom in' }).click();
      await settled(page);
      const hand = await taken(page);

      // The end A goes where the hand goes; A′ stays.
      const goal: [number, number] = [start.from[0] + 1, start.from[1] - 2];
      await hand.down(await onScreen(page, start.from));
      await hand.to(await onScreen(page, goal));
      await hand.up();
      await settled(page);
      const pulled = (await told(page))!;
      expect(Math.hypot(pulled.from[0] - goal[0], pulled.from[1] - goal[1])).toBeLessThan(0.1);
      expect(pulled.to[0]).toBeCloseTo(start.to[0], 6);

      // Between its ends the whole goes along.
      const on: [number, number] = [
        pulled.from[0] * 0.25 + pulled.to[0] * 0.75,
        pulled.from[1] * 0.25 + pulled.to[1] * 0.75,
      ];
      await hand.down(await onScreen(page, on));
      await hand.to(await onScreen(page, [on[0] - 1, on[1] - 1]));
      await hand.up();
      await settled(page);
      const moved = (await told(page))!;
      expect(moved.from[0]).toBeCloseTo(pulled.from[0] - 1, 1);
      expect(moved.to[1]).toBeCloseTo(pulled.to[1] - 1, 1);

      // The system takes the hand away, or it is given up: nothing is left of it.
      await hand.down(await onScreen(page, moved.to));
      await hand.to(await onScreen(page, [moved.to[0], moved.to[1] + 2]));
      await page.keyboard.press('Escape');
      await hand.up();
      await settled(page);
      expect(await told(page)).toEqual(moved);
    });
  });
}

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test(`it is seen and reached on ${name}`, async ({ page }) => {
      await openDemo(page, SITE);
      await open(page);
      await expect(panel(page).getByRole('img')).toHaveAttribute('aria-label', /depth of the hole, deepest/);
      await page.screenshot({ path: join(RESULTS, `section-${name}.png`) });
      await panel(page).getByRole('button', { name: '× 2' }).click();
      await more(page);
      await settled(page);
      await page.screenshot({ path: join(RESULTS, `section-more-${name}.png`) });
      expect(await faults(page)).toEqual([]);
      expect(await smallTargets(page)).toEqual([]);
      await panel(page).getByRole('button', { name: 'Close the section' }).click();
      await expect(panel(page)).toHaveCount(0);
    });
  });
}

test('a shell told by stations is put on the lot and cut', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  await openStep(page, 'Shell');
  await page.getByText('A shell of your own').click();
  await page.getByText('A rectangle, its floor by stations').click();
  const table = page.getByRole('textbox', { name: 'Stations, one to a line' });
  const put = page.getByRole('button', { name: 'Put the shell by stations on the lot' });
  await table.fill("0, 3'6\"\n10\n30, 6'");
  await expect(page.getByText(/^Line 2: The line has 1 figures/)).toBeVisible();
  await expect(put).toBeDisabled();
  await table.fill("10, 3'6\"\n0, 3'6\"");
  await expect(page.getByText(/does not lie beyond the one before/)).toBeVisible();
  await table.fill("0, 3'6\"\n10, 3'6\"\n20, 6', 8', 3'6\"\n30, 6', 7', 3'6\"");
  await expect(put).toBeEnabled();
  await put.click();
  await settled(page);
  const site = JSON.parse(await savedText(page)) as {
    placement: { shell: { own: { stations: unknown[]; cove: number } } };
  };
  expect(site.placement.shell.own.stations).toHaveLength(4);
  await open(page);
  await more(page);
  await expect(figure(page, 'water')).toHaveText('5\'-6"');
});
