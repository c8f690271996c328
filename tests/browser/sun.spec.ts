// The sun on the water: hours of a day beside the command line's own answer, the strip under mouse, finger and keys with the
// shade it lays over the plan, a site that may lie anywhere, and the search for the most sun.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { finger, mouse } from './hand.ts';
import { SCREENS } from './screens.ts';
import { demoText, openDemo, openFile, openStep, settled } from './site.ts';

/** Where the command line is, when it was built. */
const PROGRAM = process.env['BATTERBOARD_BIN'];

const RESULTS = join(import.meta.dirname, 'results');
const LEVEL = 'level-suburban.json';

interface Feature {
  kind: string;
  facts?: { height?: number };
}

/** The level lot with a place on the earth, a house, a shed and tall trees. */
function sunny(): string {
  const heights: Record<string, number> = { house: 7.5, outbuilding: 3, tree: 10, fence: 1.8 };
  const site = JSON.parse(demoText(LEVEL)) as { features: Feature[] };
  for (const it of site.features) {
    const height = heights[it.kind];
    if (height !== undefined) it.facts = { ...it.facts, height };
  }
  return JSON.stringify({ ...site, origin: { longitude: -1.47, latitude: 0.64 } });
}

async function openSun(page: Page): Promise<Locator> {
  await openStep(page, 'Shell');
  const summary = page.locator('.part > summary', { hasText: 'Sun on the water' });
  if ((await summary.locator('..').getAttribute('open')) === null) await summary.click();
  await workedOut(page);
  return page.locator('.sun');
}

/** The day of the site as it stands has come. */
async function workedOut(page: Page): Promise<void> {
  await expect(page.locator('.sun[aria-busy="false"]')).toBeVisible({ timeout: 30_000 });
}

const strip = (page: Page): Locator => page.getByRole('slider', { name: 'Time of day' });
const said = (page: Page): Locator => page.locator('.sun-now');

/** Where a part of the strip's width is. */
async function along(page: Page, part: number): Promise<{ x: number; y: number }> {
  await strip(page).scrollIntoViewIfNeeded();
  const box = await strip(page).boundingBox();
  if (!box) throw new Error('the strip is not on the screen');
  return { x: box.x + part * box.width, y: box.y + box.height / 2 };
}

interface Told {
  in_sun: { shown: { text: string } };
  shaders: { name: string; takes: { shown: { text: string } } }[];
  findings: unknown[];
}

test('the hours of a day are those of the command line; mouse and keys move the shade over the plan', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openFile(page, sunny(), LEVEL);
  const sun = await openSun(page);
  await expect(sun.getByLabel('Day', { exact: true })).toHaveValue(/-06-21$/);
  const day = sun.getByLabel('Day', { exact: true });
  await day.fill('2026-03-20');
  await expect(sun.getByRole('status')).toContainText('of sun on the water');
  await expect(day).toHaveValue('2026-03-20');
  await workedOut(page);
  const lanes = sun.getByRole('list', { name: 'What shades the water' }).locator('li');
  await expect(lanes.first()).toBeVisible();
  if (PROGRAM) {
    const file = join(mkdtempSync(join(tmpdir(), 'sun-')), LEVEL);
    writeFileSync(file, sunny());
    const told = JSON.parse(execFileSync(PROGRAM, ['sun', file, '--day', '2026-03-20', '--json'], { encoding: 'utf8' })) as Told;
    await expect(sun.getByRole('status')).toContainText(told.in_sun.shown.text);
    await expect(lanes).toHaveCount(told.shaders.length);
    for (const [at, it] of told.shaders.entries()) await expect(lanes.nth(at)).toContainText(`${it.name} ${it.takes.shown.text}`);
    await expect(sun.getByRole('list', { name: 'About the sun' }).locator('li')).toHaveCount(told.findings.length);
  }

  await test.step('a press and a drag on the strip', async () => {
    const hand = mouse(page);
    await hand.down(await along(page, 0.3));
    await expect(said(page)).toContainText(' am: ');
    const morning = await said(page).innerText();
    await expect(page.locator('.sun-over')).not.toHaveAttribute('data-shades', '0');
    const shade = await page.locator('.sun-shade').getAttribute('d');
    await hand.to(await along(page, 0.7));
    await hand.up();
    await expect(said(page)).toContainText(' pm: ');
    await expect(said(page)).not.toHaveText(morning);
    await expect(page.locator('.sun-shade')).not.toHaveAttribute('d', shade ?? '');
  });

  await test.step('keys', async () => {
    await strip(page).focus();
    const before = Number(await strip(page).getAttribute('aria-valuenow'));
    await page.keyboard.press('ArrowRight');
    await expect(strip(page)).toHaveAttribute('aria-valuenow', String(before + 10));
    await page.keyboard.press('PageDown');
    await expect(strip(page)).toHaveAttribute('aria-valuenow', String(before - 50));
    await page.keyboard.press('Home');
    await expect(said(page)).toContainText('the sun is down');
    await expect(strip(page)).toHaveAttribute('aria-valuetext', /the sun is down/);
  });

  await test.step('a clock of its own, and one that is none', async () => {
    const clock = sun.getByLabel('Clock ahead of UTC, hours');
    await expect(clock).toHaveValue('-6:00');
    const rise = sun.locator('.sun-head small');
    const before = await rise.innerText();
    await clock.fill('-5');
    await clock.press('Enter');
    await expect(rise).not.toHaveText(before);
    await clock.fill('soon');
    await clock.press('Enter');
    await expect(sun.getByRole('alert')).toContainText('"soon" is no offset from UTC');
    await clock.fill('-6');
    await clock.press('Enter');
    await expect(rise).toHaveText(before);
    await expect(sun.getByRole('alert')).toHaveCount(0);
  });

  await test.step('folded away, the shade is gone', async () => {
    await page.locator('.part > summary', { hasText: 'Sun on the water' }).click();
    await expect(page.locator('.sun-over')).toHaveCount(0);
  });

  await test.step('the search for the most sun', async () => {
    await page.locator('.part > summary', { hasText: 'Find where it fits' }).click();
    await page.getByLabel('Best is').selectOption('most-sun');
    await page.getByLabel('Shells').selectOption('this');
    await page.getByRole('button', { name: 'Look for places' }).click();
    await expect(page.locator('.fit-card').first()).toContainText('of sun on the water', { timeout: 60_000 });
  });
});

test('a site that may lie anywhere asks for its place, and has its sun then', async ({ page }) => {
  await openDemo(page, LEVEL);
  const sun = await openSun(page);
  await expect(sun.getByRole('list', { name: 'About the sun' })).toContainText('where on the earth');
  await expect(strip(page)).toHaveCount(0);
  await sun.getByLabel("Latitude and longitude of the site's origin").fill('36.45, -84.31');
  await sun.getByRole('button', { name: 'Use this location' }).click();
  await expect(sun.getByRole('status')).toContainText('of sun on the water');
  await expect(sun.getByRole('list', { name: 'About the sun' })).toContainText('No height is entered for');
  await page.getByRole('button', { name: /^Undo/ }).first().click();
  await expect(strip(page)).toHaveCount(0);
});

test.describe('with a finger', () => {
  test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

  test('the time of day follows a finger', async ({ page }) => {
    await openDemo(page, LEVEL);
    await openFile(page, sunny(), LEVEL);
    await openSun(page);
    const hand = await finger(page);
    await hand.down(await along(page, 0.25));
    await hand.to(await along(page, 0.75));
    await hand.up();
    await expect(said(page)).toContainText(' pm: ');
    await expect(page.locator('.sun-over')).not.toHaveAttribute('data-shades', '0');
  });
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('it can be read and hit', async ({ page }) => {
      await openDemo(page, LEVEL);
      await openFile(page, sunny(), LEVEL);
      await openSun(page);
      await expect(said(page)).toContainText('of the water in sun');
      await settled(page);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBeLessThanOrEqual(0);
      await page.locator('.part > summary', { hasText: 'Sun on the water' }).evaluate((it) => it.scrollIntoView());
      await page.screenshot({ path: join(RESULTS, `sun-${name}.png`) });
      expect(await faults(page)).toEqual([]);
      if (hasTouch) expect(await smallTargets(page, '.sun')).toEqual([]);
    });
  });
}
