// What the tests of access share: faults that axe finds, and targets too small for a thumb.
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** The least side of a target, css pixels. */
const THUMB = 44;

/** Serious faults of the page as it stands. */
export async function faults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)} ${node.failureSummary ?? ''}`));
}

/** Buttons, fields and summaries that can be seen and are smaller than a thumb. */
export async function smallTargets(page: Page): Promise<string[]> {
  return page.locator('button, select, summary, input:not([type="file"])').evaluateAll((targets, least) => {
    return targets
      .filter((it) => it.checkVisibility() && !it.closest('.unseen'))
      .map((it) => ({ it, box: it.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 1 && (box.height < least - 0.5 || box.width < least - 0.5))
      .map(({ it, box }) => `${it.outerHTML.slice(0, 90)} ${box.width.toFixed(0)}x${box.height.toFixed(0)}`);
  }, THUMB);
}
