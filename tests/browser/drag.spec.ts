// The main thing: on every demo site the shell is dragged, with a mouse and with a finger, and the ledger
// moves with the hand. What it says is what the planner and the command line say.
import { expect, test } from '@playwright/test';
import { finger, mouse } from './hand.ts';
import { expectSameReport } from './program.ts';
import {
  DEMO_SITES,
  openDemo,
  plannerLedger,
  readLedger,
  reportedQuantities,
  savedText,
  settled,
  shellOnScreen,
  standing,
} from './site.ts';

const PULL = { x: -34, y: 26 };

for (const device of ['mouse', 'touch'] as const) {
  test.describe(device, () => {
    test.use({ hasTouch: device === 'touch' });

    for (const file of DEMO_SITES) {
      test(`${file}: the ledger moves with the ${device}`, async ({ page }) => {
        await openDemo(page, file);
        // Nothing leads the hand: over the edge of clear ground, too, the shell goes where it is pulled.
        await page.locator('.plan-canvas').press('s');
        const text = await savedText(page);
        const before = await readLedger(page);
        const from = await standing(page);
        const hand = device === 'mouse' ? mouse(page) : await finger(page);
        const start = await shellOnScreen(page);

        await hand.down(start);
        await hand.to({ x: start.x + PULL.x / 2, y: start.y + PULL.y / 2 });
        await settled(page);
        const during = await readLedger(page);
        expect(during.clearances, 'the ledger moves while the hand is down').not.toEqual(before.clearances);
        expect(during).toEqual(await plannerLedger(page));
        expect(during.quantities).toEqual(await reportedQuantities(page));

        await hand.to({ x: start.x + PULL.x, y: start.y + PULL.y });
        await hand.up();
        await settled(page);
        const after = await readLedger(page);
        expect(after.clearances).not.toEqual(during.clearances);
        expect(after).toEqual(await plannerLedger(page));
        expect(after.quantities).toEqual(await reportedQuantities(page));

        const scale = await page.evaluate(() => window.bench.view().scale);
        const to = await standing(page);
        expect((to.at[0] - from.at[0]) * scale).toBeCloseTo(PULL.x, 0);
        expect((to.at[1] - from.at[1]) * scale).toBeCloseTo(-PULL.y, 0);
        await expectSameReport(page);

        await page.getByRole('button', { name: 'Undo: move shell' }).click();
        await settled(page);
        expect(await savedText(page)).toBe(text);
        expect(await readLedger(page)).toEqual(before);
        await expect(page.getByRole('button', { name: 'Nothing to undo' })).toBeVisible();
      });
    }
  });
}
