// The verdict: no state of a job shows a tick that a careful designer would not give, the sentence is the report's own,
// and every tap that mends something leads there.
import { expect, test, type Page } from '@playwright/test';
import { SCREENS } from './screens.ts';
import { demoText, firstVisit, openDemo, reportJson, settled } from './site.ts';

interface Job {
  name: string;
  lot: { courses: { kind?: string }[] };
  rules: { name: string; source: string; distance: number; to: unknown; from: string }[];
  placement?: { at: [number, number] };
}

/** A demo site with something changed, opened from a file. */
async function openJob(page: Page, change: (job: Job) => void): Promise<void> {
  const job = JSON.parse(demoText('level-suburban.json')) as Job;
  change(job);
  const buffer = Buffer.from(JSON.stringify(job));
  await page.locator('#site-file').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer });
  await expect(page.locator('.welcome')).toHaveCount(0);
  await expect(page.locator('.verdict')).toBeVisible();
  await settled(page);
}

/** Rules to every side, each with a name behind it. */
function confirm(job: Job): void {
  for (const rule of job.rules) rule.source = 'Zoning code 12.3, by telephone';
  job.rules.push({
    name: 'Water to front line',
    from: 'waters-edge',
    to: { 'lot-line': { kind: 'front' } },
    distance: 3,
    source: 'Zoning code 12.3',
  });
}

const unkinded = (job: Job): void => job.lot.courses.forEach((course) => delete course.kind);
const overTheLine = (job: Job): void => {
  if (job.placement) job.placement.at = [-1, 20];
};

interface State {
  change: (job: Job) => void;
  standing: string;
  mark: string;
  says: RegExp;
  tap?: string;
}

const STATES: Record<string, State> = {
  'as it comes, by example rules': {
    change: () => undefined,
    standing: 'reserved',
    mark: 'reserved',
    says: /^Clearances hold with .* to spare .*, mostly by example rules not yet confirmed for this lot/,
    tap: 'Check the rules',
  },
  'all rules confirmed': { change: confirm, standing: 'holds', mark: 'fits', says: /^Every clearance holds with .* to spare/ },
  'no rules': {
    change: (job) => (job.rules = []),
    standing: 'unchecked',
    mark: 'unchecked',
    says: /no clearance rules are entered/,
    tap: 'Check the rules',
  },
  'sides without kinds': {
    change: unkinded,
    standing: 'unchecked',
    mark: 'unchecked',
    says: /none of the 4 sides has a kind yet/,
    tap: 'Set the line kinds',
  },
  'no shell': {
    change: (job) => delete job.placement,
    standing: 'not-placed',
    mark: 'open',
    says: /No shell is placed yet/,
    tap: 'Choose a shell',
  },
  'over the line without any rule': {
    change: (job) => {
      job.rules = [];
      overTheLine(job);
    },
    standing: 'conflict',
    mark: 'short',
    says: /^The shell's rim reaches .* over the side line/,
  },
  'over the line, all rules confirmed': {
    change: (job) => {
      confirm(job);
      overTheLine(job);
    },
    standing: 'conflict',
    mark: 'short',
    says: /^The shell's rim reaches .* over the side line/,
  },
  'a rule that is not kept': {
    change: (job) => {
      confirm(job);
      const rear = job.rules.find((rule) => rule.name === 'Water to rear line');
      if (rear) rear.distance = 40;
    },
    standing: 'short',
    mark: 'short',
    says: /falls? short/,
  },
};

test('every state has its own mark, and the sentence is the report’s', async ({ page }) => {
  await firstVisit(page);
  for (const [name, { change, standing, mark, says, tap }] of Object.entries(STATES)) {
    await test.step(name, async () => {
      await openJob(page, change);
      const verdict = page.locator('.verdict');
      await expect(verdict).toHaveAttribute('data-standing', standing);
      await expect(verdict.locator('.mark')).toHaveAttribute('data-kind', mark);
      const text = (await verdict.locator('h2').innerText()).replaceAll('\u00a0', ' ');
      expect(text).toMatch(says);
      const report = JSON.parse(await reportJson(page)) as { verdict: { standing: string; text: string } };
      expect(report.verdict.text).toBe(text);
      expect(report.verdict.standing).toBe(standing);
      if (tap) await expect(verdict.getByRole('button', { name: tap })).toBeVisible();
    });
  }
});

test('taps lead to where it is mended', async ({ page }) => {
  await firstVisit(page);
  await openJob(page, unkinded);
  await page.locator('.verdict').getByRole('button', { name: 'Set the line kinds' }).click();
  await expect(page.getByLabel('Which side lies on the street?')).toBeFocused();
  await page.getByLabel('Which side lies on the street?').selectOption({ index: 1 });
  await expect(page.locator('.verdict')).toHaveAttribute('data-standing', 'reserved');
  await page.locator('.verdict').getByRole('button', { name: 'Check the rules' }).click();
  await expect(page.locator('[data-entry="rules"]')).toBeInViewport();

  const worst = page.locator('.caution[data-check="shell-floats-empty"]');
  await expect(worst).toContainText('If groundwater stood at the rim');
  await worst.locator('summary').click();
  await worst.getByRole('button', { name: 'Set the groundwater level' }).click();
  const level = page.getByLabel('Highest groundwater, elevation');
  await expect(level).toBeFocused();
  await level.fill('90');
  await level.press('Enter');
  await expect(page.locator('.caution[data-check="groundwater-unknown"]')).toHaveCount(0);
});

test('conflicts come first among what is listed, this placement before every job', async ({ page }) => {
  await firstVisit(page);
  await openJob(page, overTheLine);
  const first = page.locator('.cautions[data-place="verdict"] .caution').first();
  await expect(first).toContainText('Conflict: The shell');
  const order = await page.evaluate(() =>
    window.bench.ask((p) => p.ledger(0, null).findings.map(({ severity, scope }) => [severity, scope]), []),
  );
  const rank = ([severity, scope]: string[]) =>
    ['fault', 'caution', 'note'].indexOf(severity ?? '') * 3 + ['placement', 'site', 'every-job'].indexOf(scope ?? '');
  const ranks = order.map(rank);
  expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(name, () => {
    test.use({ viewport, hasTouch });

    test('verdict and first clearance stay in sight, good or bad', async ({ page }) => {
      await openDemo(page, 'level-suburban.json');
      await page.screenshot({ path: `results/verdict-good-${name}.png` });
      await expect(page.locator('.verdict h2')).toBeInViewport({ ratio: 1 });
      await expect(page.locator('.clearance').first()).toBeInViewport();
      await openJob(page, overTheLine);
      await expect(page.locator('.verdict h2')).toBeInViewport({ ratio: 1 });
      await page.screenshot({ path: `results/verdict-bad-${name}.png` });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(wide).toBeLessThanOrEqual(0);
    });
  });
}
