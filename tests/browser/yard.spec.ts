// What stands on and under the lot: every kind put there, told its facts, changed, hidden, locked, noted,
// duplicated, taken off and brought back; by mouse, finger and keys.
import { expect, test, type Locator, type Page } from '@playwright/test';
import { finger } from './hand.ts';
import { SCREENS } from './screens.ts';
import { onScreen, openDemo, openStep, reportJson, savedText, settled } from './site.ts';

interface Saved {
  features: {
    id: string;
    kind: string;
    name?: string;
    shape: Record<string, unknown>;
    hidden?: boolean;
    locked?: boolean;
    facts?: Record<string, unknown>;
    note?: string;
  }[];
  lot: { courses: { shape: { line?: { distance: number } } }[] };
}

const DEMO = 'level-suburban.json';

const saved = async (page: Page): Promise<Saved> => JSON.parse(await savedText(page)) as Saved;
const named = async (page: Page, name: string) => (await saved(page)).features.find((it) => it.name === name);

async function openYard(page: Page): Promise<void> {
  await openDemo(page, DEMO);
  await openStep(page, 'Yard');
}

/** The form for something new, open. */
async function newForm(page: Page): Promise<Locator> {
  const form = page.locator('.new-feature');
  if (!(await form.evaluate((it) => (it as HTMLDetailsElement).open))) await form.locator('summary').first().click();
  return form;
}

/** Fills a field and leaves it. */
async function fill(at: Locator, label: string, value: string): Promise<void> {
  const field = at.getByLabel(label, { exact: true });
  await field.fill(value);
  await field.blur();
}

const card = (page: Page, name: string): Locator =>
  page.locator('.feature').filter({ has: page.locator('summary span', { hasText: new RegExp(`^${name}$`) }) });

/** Puts something on the lot by figures, in the first shape its kind comes in. */
async function add(page: Page, kind: string, name: string): Promise<Locator> {
  const form = await newForm(page);
  await form.getByLabel('What it is').selectOption({ label: kind });
  await fill(form, 'Name', name);
  const has = async (label: string) => (await form.getByLabel(label, { exact: true }).count()) > 0;
  const figures: [string, string][] = [
    ['A corner, east', '40'],
    ['The corner, north', '80'],
    ['Middle, east', '45'],
    ['Middle, north', '85'],
    ['Length', "12'"],
    ['Width, to the left', "8'"],
    ['Radius', '5'],
    ['Width', '6'],
    ['Points', '2, 70\n98, 70'],
  ];
  for (const [label, value] of figures) if (await has(label)) await fill(form, label, value);
  await form.getByRole('button', { name: 'Put it on the lot' }).click();
  const made = card(page, name);
  await expect(made).toHaveAttribute('open', '');
  return made;
}

const KINDS: Record<string, [string, string][]> = {
  House: [
    ['Finished floor', '1.5'],
    ['Footing below the ground beside it', "3'"],
  ],
  Outbuilding: [['Footing below the ground beside it', "1'"]],
  Wall: [['Height above the ground', "4'"]],
  Fence: [['Height above the ground', "5'"]],
  Driveway: [],
  Walk: [],
  Tree: [
    ['Trunk, diameter', '18 in'],
    ['Height above the ground', "40'"],
  ],
  Easement: [],
  'Septic tank': [['Top below the ground', "2'"]],
  'Septic field': [['Top below the ground', "2'"]],
  Well: [['Top below the ground', "1'"]],
  'Buried line': [['Top below the ground', "3'"]],
  'Overhead line': [['Lowest point above the ground', "18'"]],
  Equipment: [],
  Watercourse: [],
  'Street edge': [],
  'Other feature': [['Height above the ground', "2'"]],
};

test('everything there is can be put on the lot with its facts', async ({ page }) => {
  test.setTimeout(180_000);
  await openYard(page);
  const before = (await saved(page)).features.length;
  for (const [kind, facts] of Object.entries(KINDS)) {
    const name = `a ${kind.toLowerCase()}`;
    const made = await add(page, kind, name);
    for (const [label, value] of facts) await fill(made, label, value);
    const kept = await named(page, name);
    expect(kept?.kind, name).toBe(kind === 'Other feature' ? 'other' : kind.toLowerCase().replace(' ', '-'));
    expect(Object.keys(kept?.facts ?? {}), name).toHaveLength(facts.length);
  }
  const features = (await saved(page)).features;
  expect(features).toHaveLength(before + Object.keys(KINDS).length);
  const shapes = new Set(features.flatMap((it) => Object.keys(it.shape)));
  expect([...shapes].sort()).toEqual(['along', 'area', 'disc', 'strip', 'track']);
  const report = JSON.parse(await reportJson(page)) as { yard: { label: string; facts: unknown[] }[] };
  for (const [kind, facts] of Object.entries(KINDS)) {
    const told = report.yard.find((it) => it.label === `a ${kind.toLowerCase()}`);
    expect(told?.facts, kind).toHaveLength(facts.length);
  }
});

test('a line says what runs in it and how its place is known, and is cautioned of', async ({ page }) => {
  await openYard(page);
  const line = await add(page, 'Buried line', 'old gas');
  await line.getByLabel('What runs in it').selectOption('gas');
  await line.getByLabel('Known from').selectOption('memory');
  await expect(line.getByText('Positions on paper are not marks. Call the utility-locating service')).toBeVisible();
  await line.getByLabel('Known from').selectOption('marked');
  await expect(line.getByText('Positions on paper are not marks. Call')).toHaveCount(0);
  expect((await named(page, 'old gas'))?.facts).toEqual({ utility: 'gas', known_from: 'marked' });
});

test('root protection is offered from the trunk, never imposed, and a rule measures to the trunk', async ({ page }) => {
  await openYard(page);
  const tree = await add(page, 'Tree', 'elm');
  await fill(tree, 'Trunk, diameter', '10 in');
  expect((await named(page, 'elm'))?.facts).not.toHaveProperty('protection');
  await tree.getByRole('button', { name: /^Use the usual 10'/ }).click();
  expect((await named(page, 'elm'))?.facts?.['protection']).toBeCloseTo(3.048, 9);
  await fill(tree, 'Root protection, radius', '');
  expect((await named(page, 'elm'))?.facts).not.toHaveProperty('protection');

  await openStep(page, 'Lot');
  const rule = page.locator('.new-rule');
  await rule.locator('summary').click();
  await rule.getByLabel('From', { exact: true }).selectOption('waters-edge');
  await rule.getByLabel('To', { exact: true }).selectOption('part:tree-trunk');
  await fill(rule, 'At least', '3 m');
  await fill(rule, 'Source', 'The owner');
  await rule.getByRole('button', { name: 'Add this rule' }).click();
  await expect(page.locator('.clearance', { hasText: 'tree trunk of elm' })).toHaveCount(1);
});

test('duplicated, hidden, locked, noted, taken off and brought back', async ({ page }) => {
  await openYard(page);
  const well = await add(page, 'Well', 'bore');
  const first = await savedText(page);
  await well.getByRole('button', { name: 'Duplicate' }).click();
  await expect(card(page, 'bore \\(copy\\)')).toHaveCount(1);
  const copy = await named(page, 'bore (copy)');
  expect(copy?.id).not.toBe((await named(page, 'bore'))?.id);
  expect(copy?.shape).not.toEqual((await named(page, 'bore'))?.shape);

  const rows = await page.locator('.clearance').count();
  await well.getByRole('button', { name: 'Hide' }).click();
  await expect(well.locator('.head-aside')).toContainText('hidden');
  await expect(well.getByText('Hidden on the plan alone')).toBeVisible();
  await expect(page.locator('.clearance')).toHaveCount(rows);
  await well.getByRole('button', { name: 'Show' }).click();

  await well.getByRole('button', { name: 'Lock' }).click();
  await well.getByText('Shape and place').click();
  await expect(well.getByLabel('Radius')).toBeDisabled();
  await expect(well.getByRole('button', { name: 'Remove it' })).toBeDisabled();
  await well.getByRole('button', { name: 'Unlock' }).click();
  await fill(well, 'Radius', '2 ft');
  expect((await named(page, 'bore'))?.shape).toHaveProperty('disc.radius', 2 * 0.3048);

  await fill(well, 'Note', 'capped in spring');
  expect((await named(page, 'bore'))?.note).toBe('capped in spring');
  await well.getByRole('button', { name: 'Remove it' }).click();
  expect(await named(page, 'bore')).toBeUndefined();
  await expect(card(page, 'bore')).toHaveCount(0);
  for (let i = 0; i < 8; i += 1) await page.getByRole('button', { name: /^Undo:/ }).click();
  expect(await savedText(page)).toBe(first);
});

test('an easement along a side follows the lot', async ({ page }) => {
  await openYard(page);
  await add(page, 'Easement', 'rear strip');
  const area = async () => {
    const report = JSON.parse(await reportJson(page)) as { yard: { label: string; size: { value: number } }[] };
    return report.yard.find((it) => it.label === 'rear strip')?.size.value ?? 0;
  };
  const side = (await saved(page)).lot.courses[0]?.shape.line?.distance ?? 0;
  expect(await area()).toBeCloseTo(side * 6 * 0.3048, 3);
  // The lot, half as wide again.
  await page.evaluate(() =>
    window.bench.ask((p) => {
      const lot = p.settings().lot;
      for (const course of lot.courses ?? []) if ('line' in course.shape) course.shape.line.distance *= 1.5;
      return p.apply({ 'set-lot': lot }).ok;
    }, false),
  );
  expect(await area()).toBeCloseTo(1.5 * side * 6 * 0.3048, 3);
});

test('a gate is set into its fence and set against the shell', async ({ page }) => {
  await openYard(page);
  const fence = await add(page, 'Fence', 'cross fence');
  await fence.getByText(/^Gates \(0\)$/).click();
  await fence.getByRole('button', { name: 'Add a gate' }).click();
  const gate = fence.getByRole('group', { name: 'gate 1' });
  await fill(gate, 'Clear width', '3 ft 6 in');
  await expect(fence.getByText(/narrowest gate .* is 3'-6" wide; the shell is/)).toBeVisible();
  await fill(gate, 'Middle of the gate, north', '75');
  await expect(fence.getByText('lies off its edge')).toBeVisible();
  await fill(gate, 'Middle of the gate, north', '70');
  await expect(fence.getByText('lies off its edge')).toHaveCount(0);
});

test('the examples that are missing are offered, and say that they are examples', async ({ page }) => {
  await openDemo(page, DEMO);
  await openStep(page, 'Lot');
  const add = page.getByRole('button', { name: /^Add examples/ });
  await add.click();
  await expect(add).toBeDisabled();
  const { rules } = JSON.parse(await savedText(page)) as { rules: { to: object; source: string }[] };
  const trunk = rules.find((rule) => JSON.stringify(rule.to) === '{"part":{"part":"tree-trunk"}}');
  expect(trunk?.source).toContain('example only');
});

test('the list is narrowed by kind and by name; faults of pasted points are told with their lines', async ({ page }) => {
  await openYard(page);
  const all = await page.locator('.feature').count();
  await page.getByLabel('List', { exact: true }).selectOption('tree');
  const trees = await page.locator('.feature').count();
  expect(trees).toBeGreaterThan(1);
  expect(trees).toBeLessThan(all);
  await fill(page.locator('.panel'), 'Find', 'oak');
  await expect(page.locator('.feature')).toHaveCount(1);

  const form = await newForm(page);
  await form.getByLabel('What it is').selectOption({ label: 'Fence' });
  await fill(form, 'Points', '1, 2\nby the oak\n3, 4, 5, 6');
  await expect(form.getByText(/Line 2: .* Line 3:/)).toBeVisible();
  await form.getByRole('button', { name: 'Put it on the lot' }).click();
  await expect(form.getByText('Still to enter: two points or more.')).toBeVisible();
  expect((await saved(page)).features).toHaveLength(all);
});

test('by keys alone', async ({ page }) => {
  await openYard(page);
  const before = (await saved(page)).features.length;
  await page.locator('.new-feature > summary').focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.type('Well');
  await page.keyboard.press('Tab');
  await page.keyboard.type('key well');
  await page.keyboard.press('Tab'); // its shape
  for (const value of ['30', '60', '3']) {
    await page.keyboard.press('Tab');
    await page.keyboard.type(value);
  }
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await expect(page.getByRole('button', { name: 'Put it on the lot' })).toBeFocused();
  await page.keyboard.press('Enter');
  expect((await saved(page)).features).toHaveLength(before + 1);
  const made = card(page, 'key well');
  await expect(made.locator('summary').first()).toBeFocused();
  // From its summary to the first of its buttons, and hidden by the space bar.
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  expect((await named(page, 'key well'))?.hidden).toBe(true);
  await page.keyboard.press('Control+z');
  expect((await named(page, 'key well'))?.hidden).toBeUndefined();
});

/** A tree of the demo site, where nothing else is. */
const TREE = { id: 'front-tree', at: [3.6576, 4.8768] as [number, number] };

test('a click on the plan opens the card of what is there, and a card lights it up', async ({ page }) => {
  await openYard(page);
  const place = await onScreen(page, TREE.at);
  await page.mouse.click(place.x, place.y);
  const open = page.locator(`.feature[data-feature="${TREE.id}"]`);
  await expect(open).toHaveAttribute('open', '');
  await expect(open).toBeInViewport();
  await expect(open.locator('summary').first()).toBeFocused();
  const shot = () => page.locator('.plan-canvas').screenshot();
  await settled(page);
  const lit = await shot();
  await page.getByRole('button', { name: 'Close this step' }).focus();
  await settled(page);
  expect((await shot()).equals(lit)).toBe(false);
});

test.describe('with a finger', () => {
  test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

  test('a tap on the plan opens the card of what is there', async ({ page }) => {
    await openYard(page);
    const hand = await finger(page);
    await hand.down(await onScreen(page, TREE.at));
    await hand.up();
    const open = page.locator(`.feature[data-feature="${TREE.id}"]`);
    await expect(open).toHaveAttribute('open', '');
    await open.getByRole('button', { name: 'Hide' }).tap();
    expect((await saved(page)).features.find((it) => it.id === TREE.id)?.hidden).toBe(true);
  });
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch, deviceScaleFactor: hasTouch ? 2 : 1 });

    test('pictures of the yard', async ({ page }) => {
      await openYard(page);
      await page.screenshot({ path: `results/yard-list-${name}.png` });
      const fence = await add(page, 'Fence', 'side fence');
      await fence.getByText(/^Gates/).click();
      await fence.getByRole('button', { name: 'Add a gate' }).click();
      await page.screenshot({ path: `results/yard-fence-${name}.png` });
      const tree = await add(page, 'Tree', 'elm');
      await fill(tree, 'Trunk, diameter', '18 in');
      await tree.getByRole('button', { name: /^Use the usual/ }).click();
      await settled(page);
      await page.screenshot({ path: `results/yard-tree-${name}.png` });
      await page.getByRole('button', { name: 'Close this step' }).click();
      await settled(page);
      await page.screenshot({ path: `results/yard-plan-${name}.png` });
    });
  });
}
