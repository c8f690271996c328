// The page read at 200 %: a screen of 1280x800 shows half as much each way then. Nothing is cut off, and every control can be
// brought into sight and hit.
import { expect, test, type Page } from '@playwright/test';
import { openDemo, openStep, settled } from './site.ts';

test.use({ viewport: { width: 640, height: 400 } });

/** What cannot be hit once it was brought into sight, and words that are cut off without a sign of it. */
async function lost(page: Page, within: string): Promise<string[]> {
  return page.locator(within).evaluate((root) => {
    const named = (it: Element) => it.outerHTML.slice(0, 110);
    const seen = (it: Element) => it.checkVisibility({ visibilityProperty: true }) && !it.closest('.unseen');
    const controls = [...root.querySelectorAll('button, select, summary, textarea, input:not([type="file"])')].filter(seen);
    const missed = controls.filter((it) => {
      const target = it.closest('label') ?? it;
      target.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
      const { x, y, width, height } = target.getBoundingClientRect();
      const hit = document.elementFromPoint(x + width / 2, y + height / 2);
      return width > 1 && !(hit && (target.contains(hit) || hit.contains(target)));
    });
    const cut = [...root.querySelectorAll<HTMLElement>('button, summary, label, p, h2, h3, h4, dt, dd, li')].filter((it) => {
      const { overflowX, overflowY, textOverflow } = getComputedStyle(it);
      const across = it.scrollWidth > it.clientWidth + 1 && overflowX === 'hidden' && textOverflow !== 'ellipsis';
      return seen(it) && (across || (it.scrollHeight > it.clientHeight + 2 && overflowY === 'hidden'));
    });
    return [...missed.map((it) => `cannot be hit: ${named(it)}`), ...cut.map((it) => `is cut off: ${named(it)}`)];
  });
}

test('plan, ledger and every step', async ({ page }) => {
  test.setTimeout(120_000);
  await openDemo(page, 'creek-side-deed.json', 'as left');
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
  const plan = page.locator('.plan-canvas');
  expect((await plan.boundingBox())?.height).toBeGreaterThan(200);
  await plan.scrollIntoViewIfNeeded();
  await expect(plan).toBeInViewport({ ratio: 0.7 });
  expect.soft(await lost(page, '.head'), 'the head').toEqual([]);
  expect.soft(await lost(page, '.band'), 'the band').toEqual([]);
  expect.soft(await lost(page, '.middle'), 'over the plan').toEqual([]);
  await page.getByRole('button', { name: 'Show the whole ledger' }).click();
  await settled(page);
  expect.soft(await lost(page, '.ledger'), 'the ledger').toEqual([]);
  await page.getByRole('button', { name: 'Show the plan' }).click();
  for (const step of ['Lot', 'Yard', 'Ground', 'Shell', 'Dig'] as const) {
    await openStep(page, step);
    await settled(page);
    expect.soft(await lost(page, '.panel'), step).toEqual([]);
    expect.soft((await plan.boundingBox())?.height, step).toBeGreaterThan(160);
  }
});

test('the menu to its end, and sheets', async ({ page }) => {
  await openDemo(page, 'creek-side-deed.json', 'as left');
  for (const name of ['Report', 'Keys and gestures', 'All jobs', 'Start or open another job']) {
    await page.locator('.menu > summary').click();
    expect.soft(await lost(page, '.menu ul'), 'the menu').toEqual([]);
    await page.locator('.menu').getByRole('button', { name, exact: true }).click();
    const dialog = page.getByRole('dialog').last();
    await expect(dialog).toBeVisible();
    await settled(page);
    expect.soft(await lost(page, 'dialog[open]'), name).toEqual([]);
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toHaveCount(0);
  }
});
