// The company's book: what one job has is kept in it and used on another; what has changed since is told and never taken
// over by itself; it outlives the page, two tabs do not overwrite each other, and it goes out to a file and back. And a
// shell drawn round a picture.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { faults, smallTargets } from './access.ts';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, onScreen, openDemo, openFile, openStep, savedText, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');
const LEVEL = DEMO_SITES.find((it) => it.startsWith('level')) ?? '';
const PRICED = 'sloping-hillside.json';

interface SavedSite {
  rules: { name: string; distance: number; source: string }[];
  rates?: { key: string; rate: number }[];
  taken?: { on: string; book: string; edition: number; entry: { id: string; name: string } }[];
  placement?: { shell: { own?: { name: string; stations?: unknown[]; outline: number[][] } } };
}

const saved = async (page: Page): Promise<SavedSite> => JSON.parse(await savedText(page)) as SavedSite;

async function theBook(page: Page): Promise<Locator> {
  const sheet = page.getByRole('dialog', { name: 'Company’s book' });
  if ((await sheet.count()) === 0) {
    await page.locator('.menu > summary').click();
    await page.locator('.menu').getByRole('button', { name: 'The company’s book' }).click();
  }
  await expect(sheet).toBeVisible();
  return sheet;
}

async function close(page: Page): Promise<void> {
  await page.getByRole('dialog').getByRole('button', { name: 'Close', exact: true }).click();
  await settled(page);
}

async function keep(sheet: Locator, what: string): Promise<void> {
  const button = sheet.getByRole('button', { name: what, exact: true });
  if (!(await button.isVisible())) await sheet.getByText('Keep something of this job in the book').click();
  await button.click();
  await expect(sheet.locator('.entry-body')).toHaveCount(1);
}

async function type(sheet: Locator, label: string, text: string): Promise<void> {
  const field = sheet.locator('.entry-body').getByLabel(label, { exact: true });
  await field.fill(text);
  await field.blur();
}

/** Opens an entry, where it is not open. */
async function open(sheet: Locator, name: string): Promise<void> {
  const head = sheet.locator('.entry-head', { hasText: name });
  if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
  await expect(sheet.locator('.entry-body')).toHaveCount(1);
}

const entry = (sheet: Locator, name: string): Locator => sheet.locator('.entry', { hasText: name });

test('rules typed on one job are used on another, and the job keeps them as they were taken', async ({ page }) => {
  await openDemo(page, LEVEL);
  let sheet = await theBook(page);
  await expect(sheet).toContainText('There is nothing in it yet');
  await keep(sheet, 'Its rules');
  await type(sheet, 'Name', 'Larch County');
  await type(sheet, 'Who requires it: the code and its section', 'Zoning code 12.3');
  await type(sheet, 'Where it holds', 'Larch County');
  await type(sheet, 'Checked by', 'J. Rowan');
  await expect(entry(sheet, 'Larch County')).toContainText('checked by J. Rowan');
  await close(page);

  await openFile(page, JSON.stringify({ ...JSON.parse(readFileSync(join(import.meta.dirname, '../../demo-sites', PRICED), 'utf8')) }));
  const before = await savedText(page);
  sheet = await theBook(page);
  await expect(sheet.locator('.took')).toHaveCount(0);
  await entry(sheet, 'Larch County').getByRole('button', { name: 'Use Larch County in this job' }).click();
  await expect(sheet.locator('.took-one')).toContainText('The book has it as it was taken.');
  const taken = await saved(page);
  expect(taken.taken?.map((it) => it.entry.name)).toEqual(['Larch County']);
  expect(taken.taken?.[0]?.on).toMatch(/^\d{4}-\d\d-\d\d$/);

  // The book changes; the job does not, and says so.
  const [first] = taken.rules;
  if (!first) throw new Error('the set has no rule');
  await page.evaluate(() => window.bench.ask((p) => p.undo(1), 0));
  expect(await savedText(page)).toBe(before);
  await page.evaluate(() => window.bench.ask((p) => p.redo(1), 0));
  await open(sheet, 'Larch County');
  await type(sheet, 'Note', 'New edition of the code');
  await expect(sheet.locator('.took-one')).toContainText('Changed in the book since');
  await expect(sheet.locator('.took-one')).toContainText('New edition of the code');
  expect((await saved(page)).taken?.[0]?.edition).toBe(taken.taken?.[0]?.edition);

  // What this job has otherwise is told, and can be put into the book or given up.
  await close(page);
  const other = { ...taken, rules: taken.rules.map((it, i) => (i === 0 ? { ...it, distance: it.distance + 1 } : it)) };
  await page.evaluate((rules) => window.bench.ask((p) => p.apply({ 'set-rules': rules } as never), null), other.rules);
  sheet = await theBook(page);
  await expect(sheet.locator('.took-one')).toContainText('This job has otherwise');
  await expect(sheet.locator('.took-one')).toContainText(first.name);
  await sheet.getByRole('button', { name: 'Put it into the book as this job has it' }).click();
  await sheet.getByRole('button', { name: 'Take it over as the book has it' }).click();
  await expect(sheet.locator('.took-one')).toContainText('The book has it as it was taken.');
  expect((await saved(page)).rules[0]?.distance).toBeCloseTo(first.distance + 1, 9);
  await close(page);

  // The report says where they are from.
  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'Report' }).click();
  await expect(page.locator('.sheet.report')).toContainText('From the company\'s book');
  await expect(page.locator('.sheet.report')).toContainText('Larch County, Zoning code 12.3');
});

test('rates with their supplier and day are used where there are none, and old ones are marked', async ({ page }) => {
  await openDemo(page, PRICED);
  let sheet = await theBook(page);
  await keep(sheet, 'Its rates');
  await type(sheet, 'Name', 'Alder Aggregates');
  await expect(entry(sheet, 'Alder Aggregates')).not.toContainText('older');
  await type(sheet, 'Of the day', '2020-05-01');
  await expect(entry(sheet, 'Alder Aggregates')).toContainText('Prices older than a year');
  const rates = (await saved(page)).rates ?? [];
  expect(rates.length).toBeGreaterThan(2);
  await close(page);

  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'Start or open another job' }).click();
  await page.locator(`.demo[data-file="${LEVEL}"]`).click();
  await expect(page.locator('.welcome')).toHaveCount(0);
  await settled(page);
  expect((await saved(page)).rates ?? []).toEqual([]);
  sheet = await theBook(page);
  await entry(sheet, 'Alder Aggregates').getByRole('button', { name: /^Use/ }).click();
  await settled(page);
  expect((await saved(page)).rates).toEqual(rates);
  await expect(page.locator('.notice')).toContainText('taken over from the book');

  // A price is typed where it is kept, in the units of the job that is open; what took it before stays as it was.
  await open(sheet, 'Alder Aggregates');
  await sheet.locator('.entry-body').getByText('Its prices').click();
  const price = sheet.locator('.entry-body').getByLabel(/^Base stone, .* per short ton$/);
  await price.fill('51.25');
  await price.press('Enter');
  await expect(sheet.locator('.took-one')).toContainText('Changed in the book since');
  expect((await saved(page)).rates).toEqual(rates);

  // The price of a shell is paid for by a line of its own.
  await keep(sheet, 'Its shell');
  await type(sheet, 'Price', '24,500');
  await type(sheet, 'Length inside, as printed', "80'");
  await expect(sheet.locator('.entry-body').locator('xpath=..')).toContainText("off the printed 80'-0\"");
  await sheet.locator('.entry-body').locator('xpath=..').getByRole('button', { name: /^Use/ }).click();
  await settled(page);
  const now = await saved(page);
  expect(now.rates?.find((it) => it.key === 'shell')?.rate).toBe(24500);
  expect(now.placement?.shell.own?.name).toBeTruthy();
});

test('a new job begins with what the book says, and tells so', async ({ page }) => {
  await openDemo(page, PRICED);
  const { works } = JSON.parse(await savedText(page));
  works.dig.over_dig = 0.3;
  await page.evaluate((works) => window.bench.ask((p) => p.apply({ 'set-works': works } as never), null), works);
  const sheet = await theBook(page);
  await keep(sheet, 'How it is built');
  await type(sheet, 'Name', 'As we build');
  await sheet.locator('.entry-body').getByLabel('New jobs begin with it').check();
  await close(page);

  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: 'Start or open another job' }).click();
  await page.getByRole('button', { name: /empty 100 by 140/ }).click();
  await settled(page);
  await expect(page.locator('.notice')).toContainText('The job begins with As we build from the company’s book.');
  const next = await saved(page);
  expect(next.taken?.map((it) => it.entry.name)).toEqual(['As we build']);
  expect(JSON.parse(await savedText(page)).works.dig.over_dig).toBe(0.3);
});

test('the book outlives the page, two tabs do not overwrite each other, and a file goes out and back', async ({ page, context }) => {
  await openDemo(page, LEVEL);
  let sheet = await theBook(page);
  await keep(sheet, 'How it is built');
  await type(sheet, 'Name', 'Our way');
  await expect(entry(sheet, 'Our way')).toBeVisible();
  await expect(sheet).toContainText('kept on this device');
  await page.reload();
  await expect(page.locator('.plan-canvas')).toBeVisible();
  sheet = await theBook(page);
  await expect(entry(sheet, 'Our way')).toBeVisible();

  const second = await context.newPage();
  await second.goto('./?bench');
  await expect(second.locator('.clearance').first()).toBeVisible();
  const there = await theBook(second);
  await expect(entry(there, 'Our way')).toBeVisible();
  await open(sheet, 'Our way');
  await type(sheet, 'Name', 'Our usual way');
  await open(there, 'Our way');
  await type(there, 'Note', 'typed in the other tab');
  await expect(second.locator('.notice')).toContainText('Another tab has changed the book');
  await expect(entry(there, 'Our usual way')).toBeVisible();
  await type(there, 'Note', 'typed once more');
  await expect(there.locator('.entry-body').getByLabel('Note', { exact: true })).toHaveValue('typed once more');
  await second.close();

  // Removing can be undone.
  await close(page);
  sheet = await theBook(page);
  await expect(entry(sheet, 'Our usual way')).toBeVisible();
  await open(sheet, 'Our usual way');
  await sheet.getByRole('button', { name: 'Remove from the book' }).click();
  await expect(entry(sheet, 'Our usual way')).toHaveCount(0);
  await sheet.getByRole('button', { name: 'Undo in the book' }).click();
  await expect(entry(sheet, 'Our usual way')).toBeVisible();

  const downloading = page.waitForEvent('download');
  await sheet.getByRole('button', { name: 'Save the book to a file' }).click();
  const text = readFileSync(await (await downloading).path(), 'utf8');
  expect(JSON.parse(text)).toMatchObject({ format: 'batterboard-book', version: 1 });
  await sheet.getByRole('button', { name: 'Remove from the book' }).click();
  await close(page);
  await openFile(page, text.replace('"Our usual way"', '"Out of a file"'), 'their-book.json');
  sheet = await theBook(page);
  await expect(entry(sheet, 'Out of a file')).toBeVisible();

  // A broken one is refused with its place, and the book stays.
  await close(page);
  await openFile(page, text.replace(/"over_dig": [0-9.]+/, '"over_dig": -3'), 'broken-book.json');
  await expect(page.locator('.findings, .trouble').first()).toContainText('broken-book.json was not opened');
});

for (const screen of SCREENS) {
  test.describe(screen.name, () => {
    test.use({ viewport: screen.viewport, hasTouch: screen.hasTouch, isMobile: screen.hasTouch });

    test('the book can be read and touched', async ({ page }) => {
      await openDemo(page, PRICED);
      const sheet = await theBook(page);
      await keep(sheet, 'Its rates');
      const examples = entry(sheet, 'Example rules');
      if (!(await examples.isVisible())) await sheet.getByText('Examples that come with the planner').click();
      await examples.getByRole('button', { name: /^Use/ }).click();
      await sheet.locator('.entry-head', { hasText: 'From ' }).first().scrollIntoViewIfNeeded();
      await page.screenshot({ path: join(RESULTS, `book-${screen.name}.png`) });
      expect(await faults(page)).toEqual([]);
      expect(await smallTargets(page, '.sheet.book')).toEqual([]);
    });
  });
}

test('a shell is drawn round a picture, held against the printed size, and put on the lot', async ({ page }) => {
  await openDemo(page, LEVEL);
  await openStep(page, 'Shell');
  await page.getByText('A shell of your own').click();
  await page.getByText('Any shape, drawn round a brochure’s picture').click();
  await page.getByRole('button', { name: 'Draw round its outline' }).click();
  // 10 m by 4 m, turned by 30 degrees.
  const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
  const corners = [[0, 0], [10, 0], [10, 4], [0, 4]].map(([x = 0, y = 0]): [number, number] => [8 + x * c - y * s, 8 + x * s + y * c]);
  await expect(page.getByRole('region', { name: 'Drawing' })).toBeVisible();
  for (const corner of corners) {
    // The plan may still be coming to rest where the drawing has given it another size.
    const view = () => page.evaluate(() => JSON.stringify(window.bench.view()));
    for (let last = ''; last !== (last = await view()); ) await settled(page);
    const { x, y } = await onScreen(page, corner);
    await page.mouse.click(x, y);
    await settled(page);
  }
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('c');
  await settled(page);
  const card = page.locator('details', { hasText: 'Any shape, drawn round' }).last();
  await expect(card).toContainText('Drawn:');
  const printed = card.getByLabel('Length inside, as printed');
  await printed.fill('12 m');
  await printed.press('Enter');
  await expect(card).toContainText('less than the printed one');
  await card.getByRole('button', { name: 'Scale it to the printed length' }).click();
  await expect(card).toContainText('The length agrees with the printed one.');
  await card.getByLabel('Stations, one to a line').fill('0, 1.1 m\n12 m, 1.8 m');
  await card.getByRole('button', { name: 'Put the shell by stations on the lot' }).click();
  await settled(page);
  const own = (await saved(page)).placement?.shell.own;
  expect(own?.stations).toHaveLength(2);
  const xs = own?.outline.map(([x = 0]) => x) ?? [];
  expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(12, 6);
});
