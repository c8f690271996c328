// Names, notes and sources that are written as markup and as formulas: they are shown as the text that they are, wherever they are shown.
import { expect, test } from '@playwright/test';
import { demoText, openDemo, openFile, openStep, settled } from './site.ts';

const HOSTILE = '<img src=x onerror="document.title=`taken`"><script>document.title="taken"</script>=1+1';

/** The texts of a site that are somebody's own. */
const OWN = new Set(['name', 'note', 'source', 'label', 'owner', 'parcel', 'address', 'title', 'reference']);

function made(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(made);
  if (typeof value !== 'object' || value === null) return value;
  const members = Object.entries(value).map(([key, it]) => [key, OWN.has(key) && typeof it === 'string' ? `${it} ${HOSTILE}` : made(it)]);
  return Object.fromEntries(members);
}

test('markup in any name, note or source is text', async ({ page }) => {
  test.setTimeout(120_000);
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  const asked: string[] = [];
  page.on('request', (request) => request.url().endsWith('/x') && asked.push(request.url()));
  const text = JSON.stringify(made(JSON.parse(demoText('creek-side-deed.json'))));
  expect(text.split('onerror').length).toBeGreaterThan(20);
  await openDemo(page, 'creek-side-deed.json');
  await openFile(page, text, 'hostile.json');
  const clean = async (where: string): Promise<void> => {
    expect(await page.locator('img[src="x"]').count(), where).toBe(0);
    expect(await page.evaluate(() => [...document.scripts].filter((it) => it.textContent?.includes('taken')).length), where).toBe(0);
    expect(await page.title(), where).not.toContain('taken');
  };
  await clean('the plan');
  await expect(page.getByLabel('Name of the job')).toHaveValue(new RegExp('<img src=x'));
  for (const step of ['Lot', 'Yard', 'Ground', 'Shell', 'Dig'] as const) {
    await openStep(page, step);
    await settled(page);
    await clean(step);
  }
  for (const thing of ['report', 'all jobs', 'sheets', 'in the round', 'homeowner', 'sources and licenses', 'stakes', 'versions']) {
    await page.keyboard.press('/');
    await page.keyboard.type(thing);
    await page.keyboard.press('Enter');
    await settled(page);
    await expect(page.getByRole('dialog').first(), thing).toBeVisible();
    await clean(thing);
    for (let i = 0; i < 3; i += 1) await page.keyboard.press('Escape');
  }
  expect(faults).toEqual([]);
  expect(asked).toEqual([]);
});
