// Files in and out, and work that is not lost: save and reopen, reload, broken files, a core that crashes.
import { readFileSync } from 'node:fs';
import { expect, test, type Page } from '@playwright/test';
import { DEMO_SITES, demoText, firstVisit, keptOnDevice, openDemo, openFile, openStep, readLedger, savedText, settled } from './site.ts';

// Pages are opened again here, as they are kept on the device.
test.use({ serviceWorkers: 'allow' });

const SITE = 'sloping-hillside.json';

async function nudge(page: Page): Promise<void> {
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press('Shift+ArrowLeft');
  await settled(page);
}

test('what is saved opens again with the same bytes and the same figures', async ({ page }) => {
  for (const file of DEMO_SITES) {
    await openDemo(page, file);
    await nudge(page);
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    const download = await downloading;
    expect(download.suggestedFilename()).toMatch(/^[a-z0-9-]+\.json$/);
    const text = readFileSync(await download.path(), 'utf8');
    expect(text).toBe(await savedText(page));
    const ledger = await readLedger(page);

    await nudge(page);
    await openFile(page, text);
    expect(await savedText(page)).toBe(text);
    expect(await readLedger(page)).toEqual(ledger);
    await page.evaluate(() => indexedDB.deleteDatabase('batterboard'));
  }
});

test('unsaved work survives a reload', async ({ page }) => {
  await openDemo(page, SITE);
  await nudge(page);
  await openStep(page, 'Dig');
  await page.getByLabel('Over-dig at the sides').fill('1 ft');
  await page.getByLabel('Over-dig at the sides').press('Enter');
  await settled(page);
  const text = await savedText(page);
  await keptOnDevice(page);
  await page.reload();
  await expect(page.locator('.clearance').first()).toBeVisible();
  await expect(page.locator('.welcome')).toHaveCount(0);
  expect(await savedText(page)).toBe(text);
});

test('a file that cannot be opened is told of, and changes nothing', async ({ page }) => {
  const good = demoText(SITE);
  const newer = JSON.stringify({ ...(JSON.parse(good) as object), version: 99 });
  const bowTie = JSON.stringify({
    ...(JSON.parse(good) as object),
    features: [{ id: 'bow', kind: 'house', shape: { area: [[0, 0], [8, 8], [8, 0], [0, 8]] } }],
  });
  const cases: [string, string, RegExp][] = [
    ['is empty', '', /./],
    ['is no JSON', 'not a site', /./],
    ['breaks off', good.slice(0, good.length / 2), /./],
    ['is of a newer version', newer, /99/],
    ['is of another kind', '{"format":"something-else","version":1}', /./],
    ['has an outline that crosses itself', bowTie, /features\/0/],
    ['is nested too deep', `${'['.repeat(50_000)}`, /./],
  ];
  await openDemo(page, SITE);
  await nudge(page);
  const before = await savedText(page);
  for (const [number, [what, text, words]] of cases.entries()) {
    await test.step(what, async () => {
      // A name of its own, so that what is told is not still that of the one before.
      await openFile(page, text, `broken-${number}.json`);
      const findings = page.locator('.findings');
      await expect(findings).toBeVisible();
      await expect(findings.locator('h2')).toContainText(`broken-${number}.json was not opened`);
      await expect(findings).toContainText(words);
      await expect(findings.locator('.finding-list li').first()).toContainText('Fault');
      await expect(findings.locator('.finding-list li').first()).toContainText('How to mend it');
      await findings.getByRole('button', { name: 'Go on' }).click();
      await expect(findings).toHaveCount(0);
      expect(await savedText(page)).toBe(before);
      await expect(page.getByRole('button', { name: 'Undo: nudge shell' })).toBeVisible();
    });
  }
});

test('a file dropped on the page is opened', async ({ page }) => {
  await openDemo(page, SITE);
  const other = DEMO_SITES[0] ?? '';
  const carried = await page.evaluateHandle((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'dropped.json', { type: 'application/json' }));
    return data;
  }, demoText(other));
  await page.dispatchEvent('.plan-canvas', 'dragover', { dataTransfer: carried });
  await expect(page.locator('.drop-place')).toBeVisible();
  await page.dispatchEvent('.plan-canvas', 'drop', { dataTransfer: carried });
  const { name } = JSON.parse(demoText(other)) as { name: string };
  await expect(page.getByLabel('Name of the job')).toHaveValue(name);
});

test('a crash of the core is told, and the work is open again', async ({ page }) => {
  await openDemo(page, SITE);
  await nudge(page);
  const text = await savedText(page);
  const ledger = await readLedger(page);
  await page.evaluate(() =>
    window.bench.ask(() => {
      throw new WebAssembly.RuntimeError('unreachable');
    }, undefined),
  );
  await expect(page.locator('.notice')).toContainText('had to restart');
  await settled(page);
  expect(await savedText(page)).toBe(text);
  expect(await readLedger(page)).toEqual(ledger);
  await nudge(page);
  expect(await savedText(page)).not.toBe(text);
});

test('a core that keeps crashing hands the work out', async ({ page }) => {
  await openDemo(page, SITE);
  await nudge(page);
  const text = await savedText(page);
  for (let i = 0; i < 3; i += 1) {
    await page.evaluate(() =>
      window.bench.ask(() => {
        throw new WebAssembly.RuntimeError('unreachable');
      }, undefined),
    );
    if (i < 2) await expect.poll(() => savedText(page)).toBe(text);
  }
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the work as a file' }).click();
  expect(readFileSync(await (await downloading).path(), 'utf8')).toBe(text);
  await page.getByRole('button', { name: 'Go on with a blank lot' }).click();
  await expect(page.getByRole('heading', { name: 'keeps stopping' })).toHaveCount(0);
  await expect(page.locator('.verdict')).toBeVisible();
});

test('the report is read, printed and saved as text', async ({ page }) => {
  await openDemo(page, SITE);
  await page.locator('.menu > summary').click();
  await page.getByRole('button', { name: 'Report' }).click();
  const text = await page.evaluate(() => window.bench.report('text'));
  await expect(page.locator('.report pre')).toHaveText(text, { useInnerText: false });
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as text' }).click();
  expect(readFileSync(await (await downloading).path(), 'utf8')).toBe(text);
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.page')).toBeHidden();
  await expect(page.locator('.report pre')).toBeVisible();
  // A sheet taller than the paper begins at its top, not as far above as it hangs below.
  const top = await page.getByRole('heading', { name: 'Report' }).evaluate((it) => it.getBoundingClientRect().top + scrollY);
  expect(top).toBeGreaterThanOrEqual(0);
});

test('a blank lot can be made into a job by typing', async ({ page }) => {
  await firstVisit(page);
  await page.getByRole('button', { name: 'Start with an empty 100 by 140 ft lot' }).click();
  await openStep(page, 'Lot');
  await page.getByText('Start again with a rectangle').click();
  for (const [label, text] of [
    ['Along the street', '100 ft'],
    ['From street to rear', '150 ft'],
  ] as const) {
    await page.getByLabel(label).fill(text);
    await page.getByLabel(label).press('Enter');
  }
  await page.getByRole('button', { name: 'Make this lot' }).click();
  await openStep(page, 'Yard');
  await page.getByText('Add something').click();
  const form = page.locator('.new-feature');
  for (const [label, text] of [
    ['A corner, east', '30 ft'],
    ['The corner, north', '30 ft'],
    ['Length', '40 ft'],
    ['Width, to the left', '30 ft'],
  ] as const) {
    await form.getByLabel(label, { exact: true }).fill(text);
    await form.getByLabel(label, { exact: true }).press('Enter');
  }
  await form.getByRole('button', { name: 'Put it on the lot' }).click();
  await openStep(page, 'Shell');
  await page.locator('.shell').first().click();
  await settled(page);
  const site = JSON.parse(await savedText(page)) as { features: unknown[]; placement: unknown; lot: { courses: unknown[] } };
  expect(site.features).toHaveLength(1);
  expect(site.lot.courses).toHaveLength(4);
  expect(site.placement).toBeTruthy();
});
