// Where the shell may go: clear ground under the hand, what frees a shell that stands too close, and the search.
import { expect, test, type Page } from '@playwright/test';
import { finger, mouse } from './hand.ts';
import { openDemo, openStep, settled, shellOnScreen, standing } from './site.ts';

const SITE = 'level-suburban.json';

/** The lot's west line is this way: far enough to reach over it from anywhere. */
async function pushWest(page: Page, device: 'mouse' | 'touch', pixels: number): Promise<void> {
  const hand = device === 'mouse' ? mouse(page) : await finger(page);
  const start = await shellOnScreen(page);
  await hand.down(start);
  await hand.to({ x: start.x - pixels, y: start.y });
  await settled(page);
  await hand.up();
  await settled(page);
}

const verdict = (page: Page) => page.locator('.verdict');

/** How far west the shell may go before anything is short, pixels, told by the edge it is held on. */
async function roomToTheWest(page: Page): Promise<number> {
  const from = await standing(page);
  let low = 0;
  let high = 40;
  // Bisected by what the planner itself says of a shell put there.
  for (let i = 0; i < 24; i += 1) {
    const middle = (low + high) / 2;
    const short = await page.evaluate(
      ([x, y]) =>
        window.bench.ask((p) => {
          p.apply({ 'move-shell': { at: [x, y] } });
          const { standing } = p.ledger(0, null).verdict;
          p.undo(1);
          return standing === 'short' || standing === 'conflict';
        }, true),
      [from.at[0] - middle, from.at[1]] as [number, number],
    );
    if (short) high = middle;
    else low = middle;
  }
  return low * (await page.evaluate(() => window.bench.view().scale));
}

for (const device of ['mouse', 'touch'] as const) {
  test.describe(device, () => {
    test.use({ hasTouch: device === 'touch' });

    test(`a shell pushed with the ${device} slides along the edge of clear ground, and goes past it when pushed on`, async ({ page }) => {
      await openDemo(page, SITE);
      await expect(verdict(page)).not.toHaveAttribute('data-standing', /short|conflict/);
      const room = await roomToTheWest(page);
      await pushWest(page, device, room + 30);
      await expect(verdict(page)).not.toHaveAttribute('data-standing', /short|conflict/);
      const held = await standing(page);
      await page.getByRole('button', { name: /^Undo/ }).click();
      await settled(page);
      const before = await standing(page);
      const scale = await page.evaluate(() => window.bench.view().scale);
      // Held where it first falls short, along the line it was pushed against.
      expect(Math.abs((before.at[0] - held.at[0]) * scale - room)).toBeLessThan(30);
      await pushWest(page, device, room + 90);
      await expect(verdict(page)).toHaveAttribute('data-standing', /short|conflict/);
      const over = await standing(page);
      expect((before.at[0] - over.at[0]) * scale).toBeCloseTo(room + 90, 0);

      await page.getByText('What would free it').click();
      const cure = page.getByRole('list', { name: 'What would free it' }).getByRole('button', { name: /^Move it .* toward the/ });
      await expect(page.getByRole('list', { name: 'What binds here' })).toContainText('short');
      await cure.click();
      await settled(page);
      await expect(verdict(page)).not.toHaveAttribute('data-standing', /short|conflict/);
      await page.getByRole('button', { name: 'Undo: place the shell' }).click();
      await settled(page);
      expect(await standing(page)).toEqual(over);
    });
  });
}

test('places are searched for and tried with the keyboard', async ({ page }) => {
  await openDemo(page, SITE);
  await openStep(page, 'Shell');
  const before = await standing(page);
  await page.getByText('Find where it fits').focus();
  await page.keyboard.press('Enter');
  const shells = page.getByLabel('Shells', { exact: true });
  await shells.selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Look for places' }).focus();
  await page.keyboard.press('Enter');
  const cards = page.locator('.fit-card');
  await expect(cards.first()).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole('status').filter({ hasText: 'places found' })).toBeAttached({ timeout: 30_000 });
  expect(await cards.count()).toBeGreaterThan(1);
  await cards.nth(1).focus();
  await page.keyboard.press('Enter');
  await settled(page);
  expect(await standing(page)).not.toEqual(before);
  await expect(verdict(page)).not.toHaveAttribute('data-standing', /short|conflict/);
  // What was found stays there to be tried after another change.
  await cards.nth(0).click();
  await settled(page);
  await expect(verdict(page)).not.toHaveAttribute('data-standing', /short|conflict/);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await standing(page)).toEqual(before);
});

test('a search of the whole catalogue grows card by card and can be stopped', async ({ page }) => {
  await openDemo(page, 'wedge-cul-de-sac.json');
  await openStep(page, 'Shell');
  await page.getByText('Find where it fits').click();
  await page.getByRole('button', { name: 'Look for places' }).click();
  await expect(page.locator('.fit-card').first()).toBeVisible({ timeout: 30_000 });
  await page.getByRole('button', { name: 'Stop' }).click();
  await expect(page.getByRole('button', { name: 'Look for places' })).toBeVisible();
  const stopped = await page.locator('.fit-card').count();
  expect(stopped).toBeGreaterThan(0);
  await page.getByLabel('Largest rectangle of water').selectOption('0.5');
  await page.getByRole('button', { name: 'Look', exact: true }).click();
  await expect(page.locator('.fit-largest [role=status]')).toContainText(' by ', { timeout: 60_000 });
});

test('clear ground stays on the plan when asked for, and says why there is none', async ({ page }) => {
  await openDemo(page, SITE);
  await openStep(page, 'Shell');
  const button = page.getByRole('button', { name: 'Clear ground' });
  await button.click();
  await expect(button).toHaveAttribute('aria-pressed', 'true');
  await page.reload();
  await settled(page);
  await openStep(page, 'Shell');
  await expect(page.getByRole('button', { name: 'Clear ground' })).toHaveAttribute('aria-pressed', 'true');
  const rules = await page.evaluate(() =>
    window.bench.ask((p) => {
      const site = JSON.parse(p.save_bare()) as { rules: { distance: number; to: object }[] };
      const rules = site.rules.map((rule) => ('lot-line' in rule.to ? { ...rule, distance: 30 } : rule));
      return p.apply({ 'set-rules': rules as never }).ok;
    }, false),
  );
  expect(rules).toBe(true);
  await page.getByRole('button', { name: 'Flip', exact: true }).click();
  await expect(page.locator('.plan-snap')).toContainText('No clear ground at this heading');
});

/** Shows clear ground from the Shell step, and gives what is said of its edge and what is drawn of it. */
async function shownEdge(page: Page, demo: string) {
  await openDemo(page, demo);
  await openStep(page, 'Shell');
  const toggle = page.getByRole('button', { name: 'Clear ground' });
  await toggle.click();
  return { note: page.locator('.edge-note'), drawn: page.locator('.edge-over'), toggle };
}

test('the edge of clear ground is exact where the ground is level', async ({ page }) => {
  const { note, drawn } = await shownEdge(page, SITE);
  await expect(note).toHaveText(/level: .* exact\.$/);
  await expect(drawn).toHaveAttribute('data-stretches', '0');
});

test('where the ground is not level the cut made along the edge tells what falls short, until that is no more true', async ({ page }) => {
  const { note, drawn, toggle } = await shownEdge(page, 'sloping-hillside.json');
  await expect(note).toHaveText(/^The ground is not level, .* clearances fall short on /);
  await expect(drawn).not.toHaveAttribute('data-stretches', '0');
  await settled(page);
  await page.screenshot({ path: 'results/edge-of-clear-ground.png' });
  // Another place of the shell has another edge: the old one goes at once, the new one comes when the hand rests.
  await page.locator('.plan-canvas').press('ArrowUp');
  await expect(note).toHaveAttribute('data-holds', '');
  await expect(drawn).toHaveAttribute('data-stretches', '0');
  await expect(note).toHaveAttribute('data-holds', 'false');
  await toggle.click();
  await expect(note).toHaveCount(0);
  await expect(drawn).toHaveCount(0);
});
