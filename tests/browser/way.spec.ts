// The way in and the crane: measured when its part is opened, drawn over the plan, and followed by every edit; the crane
// and the truck are put on the plan by mouse, finger and keys, and by typed figures. Beside the command line's own answer.
import { join } from 'node:path';
import { execFileSync } from 'node:child_process';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { finger, mouse } from './hand.ts';
import { SCREENS } from './screens.ts';
import { demoText, onScreen, openDemo, openFile, openStep, savedText, settled, type Spot } from './site.ts';

/** Where the command line is, when it was built. */
const PROGRAM = process.env['BATTERBOARD_BIN'];

const RESULTS = join(import.meta.dirname, 'results');
const CREEK = 'creek-side-deed.json';

interface Lifted {
  lift?: { crane?: { at: [number, number]; heading: number }; delivery?: [number, number]; set_down?: [number, number] };
}

const lift = async (page: Page): Promise<NonNullable<Lifted['lift']>> => (JSON.parse(await savedText(page)) as Lifted).lift ?? {};

/** The same site with a crane and a truck. */
function lifted(file: string, more: NonNullable<Lifted['lift']>): string {
  return JSON.stringify({ ...(JSON.parse(demoText(file)) as object), lift: more });
}

async function openWay(page: Page): Promise<Locator> {
  await openStep(page, 'Shell');
  const summary = page.locator('.part > summary', { hasText: 'Way in and crane' });
  if ((await summary.locator('..').getAttribute('open')) === null) await summary.click();
  const way = page.locator('.way');
  await measured(page);
  return way;
}

/** The way of the site as it stands has come. */
async function measured(page: Page): Promise<void> {
  await expect(page.locator('.way[aria-busy="false"]')).toBeVisible({ timeout: 30_000 });
}

test('the widest way is said as the command line says it, and drawn over the plan', async ({ page }) => {
  await openDemo(page, CREEK);
  const way = await openWay(page);
  await expect(page.locator('.way-over .way-line')).toHaveCount(2);
  // Closed with its part.
  await page.locator('.part > summary', { hasText: 'Way in and crane' }).click();
  await expect(page.locator('.way-over')).toHaveCount(0);
  await openWay(page);
  if (!PROGRAM) return;
  const told = JSON.parse(execFileSync(PROGRAM, ['way-in', join(import.meta.dirname, '../../demo-sites', CREEK), '--json'], { encoding: 'utf8' })) as {
    to_dig: { width: { shown: { text: string } }; place: string };
    passages: { label: string; needed: { shown: { text: string } } }[];
    findings: { message: string }[];
  };
  await expect(way.getByRole('status').first()).toContainText(`${told.to_dig.width.shown.text} ${told.to_dig.place}`);
  const rows = way.getByRole('table', { name: 'Who passes' }).locator('tbody tr');
  await expect(rows).toHaveCount(told.passages.length);
  for (const [at, it] of told.passages.entries()) {
    await expect(rows.nth(at)).toContainText(it.label);
    await expect(rows.nth(at)).toContainText(it.needed.shown.text);
  }
  await expect(way.getByRole('list', { name: 'About the way in' }).locator('li')).toHaveCount(told.findings.length);
  await expect(page.locator('.way-over .way-label')).toHaveText(told.to_dig.width.shown.text);
});

test('a closed yard says so and what opens it; a machine that is entered wider no longer passes', async ({ page }) => {
  await openDemo(page, 'level-suburban.json');
  const way = await openWay(page);
  await expect(way.getByRole('status').first()).toHaveText('No way in is open');
  const out = way.getByRole('region', { name: 'Taken out to try' }).locator('li');
  await expect(out.first()).toContainText('8\'-0" of fence');
  await out.first().hover();
  await expect(page.locator('.way-over .way-out')).toHaveCount(1);
  await openFile(page, demoText(CREEK), CREEK);
  await openWay(page);
  const excavator = page.getByRole('row', { name: /^Excavator/ });
  await expect(excavator).toContainText('yes');
  await page.locator('.way .card > summary', { hasText: 'Sizes of machines' }).click();
  const width = page.getByLabel('Excavator, width');
  await width.fill("12'");
  await width.press('Enter');
  await expect(excavator).toContainText('no');
  await measured(page);
  await expect(page.locator('.way')).toContainText('Excavator: 1\'-0" short at the pinch, in double gate');
});

test('crane and truck are placed by tapping, dragged with the mouse, moved by keys and typed; all of it undoes', async ({ page }) => {
  await openDemo(page, CREEK);
  const way = await openWay(page);
  await way.getByRole('button', { name: 'Place the crane' }).click();
  const drive = await onScreen(page, [27.4, 9]);
  await page.mouse.click(drive.x, drive.y);
  await measured(page);
  const first = (await lift(page)).crane?.at;
  expect(first).toBeTruthy();
  await way.getByRole('button', { name: 'Place the truck' }).click();
  const street = await onScreen(page, [20, 4]);
  await page.mouse.click(street.x, street.y);
  await measured(page);
  await expect(way).toContainText('Radius to the truck');
  await expect(page.locator('.way-over .lift-band')).toHaveCount(1);

  const crane = page.locator('.lift-spot[data-spot="crane"]');
  const from = await middle(crane);
  const hand = mouse(page);
  await hand.down(from);
  await hand.to({ x: from.x + 30, y: from.y - 20 });
  await hand.up();
  await expect.poll(async () => (await lift(page)).crane?.at[0]).not.toBe(first?.[0]);
  await settled(page);
  const now = await middle(crane);
  expect(Math.hypot(now.x - from.x - 30, now.y - from.y + 20)).toBeLessThan(2);

  const before = (await lift(page)).crane?.at ?? [0, 0];
  await crane.focus();
  await page.keyboard.press('Shift+ArrowRight');
  const after = (await lift(page)).crane?.at ?? [0, 0];
  expect(after[0] - before[0]).toBeCloseTo(0.3048, 6);
  await page.locator('.way .card > summary', { hasText: 'Places, typed' }).click();
  const east = page.getByLabel('Crane, east');
  await east.fill('88 ft');
  await east.press('Enter');
  expect((await lift(page)).crane?.at[0]).toBeCloseTo(88 * 0.3048, 6);
  await measured(page);
  await page.getByRole('button', { name: /^Undo: place the lift/ }).click();
  expect((await lift(page)).crane?.at[0]).toBeCloseTo(after[0], 6);
  await way.getByRole('button', { name: 'Remove: Truck with the shell' }).click();
  expect((await lift(page)).delivery).toBeUndefined();
});

test('radius, weight and bearing are those of plain arithmetic', async ({ page }) => {
  await openDemo(page, CREEK);
  await openFile(page, lifted(CREEK, { crane: { at: [20.7264, 20.7264], heading: 0 }, delivery: [20.7264, 5.4864] }), CREEK);
  const way = await openWay(page);
  // The shell stands 30 ft north of the crane (29.8704 - 20.7264 = 9.144 m), the truck 50 ft south.
  await expect(way.locator('.way-figures')).toContainText('30\'-0"');
  await expect(way.locator('.way-figures')).toContainText('50\'-0"');
  await page.locator('.way .card > summary', { hasText: 'The crane that comes' }).click();
  for (const [label, text] of [
    ['Weight of the crane', '60,000 lb'],
    ['Weight of the rigging', '500 lb'],
    ['Weight of the shell', '2,500 lb'],
    ['Most on one outrigger', '75 %'],
    ['Side of a pad', '4 ft'],
  ] as const) {
    const field = way.getByLabel(label);
    await field.fill(text);
    await field.press('Enter');
  }
  await measured(page);
  const weight = way.locator('.way-figures dd');
  await expect(weight.filter({ hasText: 'lb/sq ft' })).toHaveCount(1);
  await expect(way).toContainText('on the hook with the rigging, at 50\'-0" from the middle of the crane');
});

test.describe('with a finger', () => {
  test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

  test('the crane follows a finger', async ({ page }) => {
    await openDemo(page, CREEK);
    await openFile(page, lifted(CREEK, { crane: { at: [27.4, 9], heading: 0 }, delivery: [20, 4] }), CREEK);
    await openWay(page);
    const crane = page.locator('.lift-spot[data-spot="crane"]');
    const from = await middle(crane);
    const hand = await finger(page);
    await hand.down(from);
    await hand.to({ x: from.x - 25, y: from.y - 25 });
    await hand.up();
    await expect.poll(async () => (await lift(page)).crane?.at[1]).toBeGreaterThan(9.1);
    expect((await lift(page)).crane?.at[0]).toBeLessThan(27.3);
  });
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('it can be read and hit', async ({ page }) => {
      await openDemo(page, CREEK);
      await openFile(page, lifted(CREEK, { crane: { at: [27.4, 9], heading: 0 }, delivery: [20, 3] }), CREEK);
      const way = await openWay(page);
      await page.screenshot({ path: join(RESULTS, `way-${name}.png`) });
      expect(await faults(page)).toEqual([]);
      if (hasTouch) expect(await smallTargets(page, '.way')).toEqual([]);
      await way.locator('#crane-head').scrollIntoViewIfNeeded();
      await page.screenshot({ path: join(RESULTS, `crane-${name}.png`) });
    });
  });
}

async function middle(of: Locator): Promise<Spot> {
  const box = await of.boundingBox();
  if (!box) throw new Error('the spot is not on the plan');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}
