// What the tests of access share: faults that axe finds, and targets too small for a thumb.
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** The least side of a target for a finger, css pixels. */
const THUMB = 44;
/** And where a mouse is at hand: well over the 24 of WCAG 2.2, 2.5.8 (from memory). */
const MOUSE = 32;

/** Faults of the page as it stands, whatever their impact, or those of some rules alone, once nothing fades in or out any more: axe reads colors as they are painted. */
export async function faults(page: Page, rules?: string[]): Promise<string[]> {
  await page.evaluate(async () => {
    const ends = (it: Animation) => it.effect?.getTiming().iterations !== Infinity;
    const ended = Promise.allSettled(document.getAnimations().filter(ends).map((it) => it.finished));
    // One in a menu that was closed meanwhile never ends.
    await Promise.race([ended, new Promise((done) => setTimeout(done, 1000))]);
  });
  const axe = new AxeBuilder({ page });
  const { violations } = await (rules ? axe.withRules(rules) : axe).analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 160)} ${node.failureSummary ?? ''}`),
  );
}

/** Buttons, fields and summaries that can be seen and are too small for the hand that the screen is made for. */
export async function smallTargets(page: Page, within = ''): Promise<string[]> {
  return page.locator(`${within} :is(button, select, summary, input:not([type="file"]))`).evaluateAll((targets, [thumb, mouse]) => {
    const least = matchMedia('(hover: hover) and (pointer: fine)').matches ? mouse : thumb;
    return targets
      .filter((it) => it.checkVisibility() && !it.closest('.unseen'))
      // A box in its label is hit wherever the label is.
      .map((it) => ({ it, box: (it.closest('label') ?? it).getBoundingClientRect() }))
      .filter(({ box }) => box.width > 1 && (box.height < least - 0.5 || box.width < least - 0.5))
      .map(({ it, box }) => `${it.outerHTML.slice(0, 90)} ${box.width.toFixed(0)}x${box.height.toFixed(0)}`);
  }, [THUMB, MOUSE] as const);
}
