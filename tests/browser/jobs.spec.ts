// Jobs: none is lost by opening another, by a reload, a killed tab, a second tab or a full device; the list and what is
// done in it, by mouse, finger and keys; versions; all of them out to a file and back.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, demoText, firstVisit, keptOnDevice, openDemo, openFile, savedText, settled } from './site.ts';

const RESULTS = join(import.meta.dirname, 'results');
const [FIRST = '', SECOND = ''] = DEMO_SITES;
const nameOf = (file: string): string => (JSON.parse(demoText(file)) as { name: string }).name;

async function nudge(page: Page, key = 'Shift+ArrowLeft'): Promise<void> {
  await page.locator('.plan-canvas').focus();
  await page.keyboard.press(key);
  await settled(page);
}

async function menu(page: Page, entry: string): Promise<void> {
  await page.locator('.menu > summary').click();
  await page.locator('.menu').getByRole('button', { name: entry, exact: true }).click();
}

/** Another example, from wherever the page stands. */
async function another(page: Page, file: string): Promise<void> {
  await menu(page, 'Start or open another job');
  await page.locator(`.demo[data-file="${file}"]`).click();
  await expect(page.locator('.welcome')).toHaveCount(0);
  await expect(page.locator('.clearance').first()).toBeVisible();
  await settled(page);
}

async function list(page: Page): Promise<Locator> {
  if ((await page.locator('.sheet.jobs').count()) === 0) await menu(page, 'All jobs');
  const sheet = page.locator('.sheet.jobs');
  await expect(sheet).toBeVisible();
  return sheet;
}

const names = (sheet: Locator): Promise<string[]> => sheet.locator('.job strong').allInnerTexts();

async function openFromList(page: Page, name: string): Promise<void> {
  const sheet = await list(page);
  await sheet.locator('.job-open', { hasText: name }).first().click();
  await expect(sheet).toHaveCount(0);
  await settled(page);
}

test('opening another job loses nothing of the first, and its undo is there as well', async ({ page }) => {
  await openDemo(page, FIRST);
  await nudge(page);
  await nudge(page);
  const first = await savedText(page);
  await another(page, SECOND);
  await nudge(page);
  const second = await savedText(page);
  await menu(page, 'Start or open another job');
  await expect(page.locator('.latest-job')).toHaveCount(2);
  await page.getByRole('button', { name: 'Start with an empty 100 by 140 ft lot' }).click();
  await settled(page);

  const sheet = await list(page);
  // The blank lot was not touched, and is no job yet.
  expect(await names(sheet)).toEqual([`Copy of ${nameOf(SECOND)}`, `Copy of ${nameOf(FIRST)}`]);
  await expect(sheet.locator('.job').first().locator('.job-figures')).toContainText('Least room');
  await expect(sheet.locator('.job').first().locator('.job-figures')).toContainText('Bank cut');
  await openFromList(page, nameOf(FIRST));
  expect(await savedText(page)).toBe(first);
  await page.getByRole('button', { name: 'Undo: nudge shell' }).click();
  await page.getByRole('button', { name: 'Undo: nudge shell' }).click();
  await expect(page.getByRole('button', { name: 'Nothing to undo' })).toBeVisible();
  await openFromList(page, nameOf(SECOND));
  expect(await savedText(page)).toBe(second);
  // The example itself is as it was: another copy of it has a name of its own.
  await another(page, SECOND);
  await expect(page.getByLabel('Name of the job')).toHaveValue(`Copy of ${nameOf(SECOND)} 2`);
});

test('a copy that nobody touched litters no list, and is there after a reload all the same', async ({ page }) => {
  await openDemo(page, FIRST);
  await keptOnDevice(page);
  const text = await savedText(page);
  await expect((await list(page)).locator('.jobs-none')).toContainText('No job is kept yet');
  await page.keyboard.press('Escape');
  await page.reload();
  await expect(page.locator('.clearance').first()).toBeVisible();
  expect(await savedText(page)).toBe(text);
  await another(page, SECOND);
  await nudge(page);
  await expect(page.locator('.kept')).toHaveText('Kept');
  expect(await names(await list(page))).toEqual([`Copy of ${nameOf(SECOND)}`]);
});

test('undo and redo survive a reload', async ({ page }) => {
  await openDemo(page, FIRST);
  await nudge(page);
  await nudge(page, ']');
  await nudge(page, 'f');
  await page.keyboard.press('Control+z');
  await settled(page);
  const text = await savedText(page);
  await expect(page.locator('.kept')).toHaveText('Kept');
  await page.reload();
  await expect(page.locator('.clearance').first()).toBeVisible();
  expect(await savedText(page)).toBe(text);
  await page.getByRole('button', { name: 'Redo: flip shell' }).click();
  for (const step of ['flip shell', 'turn shell', 'nudge shell']) {
    await page.getByRole('button', { name: `Undo: ${step}` }).click();
  }
  await expect(page.getByRole('button', { name: 'Nothing to undo' })).toBeVisible();
  await settled(page);
  const { name } = JSON.parse(text) as { name: string };
  expect(JSON.parse(await savedText(page))).toEqual({ ...(JSON.parse(demoText(FIRST)) as object), name });
});

test('the list finds, copies, puts away, deletes and gives back', async ({ page }) => {
  await openDemo(page, FIRST);
  await nudge(page);
  await another(page, SECOND);
  await nudge(page);
  await expect(page.locator('.kept')).toHaveText('Kept');
  await page.getByRole('button', { name: 'All jobs' }).first().click();
  const sheet = page.locator('.sheet.jobs');
  const [first, second] = [`Copy of ${nameOf(FIRST)}`, `Copy of ${nameOf(SECOND)}`];
  await expect(sheet.getByRole('searchbox')).toBeFocused();
  const row = sheet.getByRole('listitem', { name: first, exact: true });
  await row.getByLabel('Place of').fill('12 Mill Lane');
  await row.getByLabel('Place of').press('Enter');
  await row.getByLabel('Status of').selectOption({ label: 'For permit' });
  await sheet.getByRole('searchbox').fill('mill permit');
  await expect(sheet.locator('.job')).toHaveCount(1);
  await expect(row).toBeVisible();
  await row.getByRole('button', { name: 'Duplicate' }).click();
  await expect(sheet.locator('.job')).toHaveCount(2);
  expect(await names(sheet)).toEqual([`${first} 2`, first]);
  await row.getByRole('button', { name: 'Archive' }).click();
  await expect(sheet.locator('.job')).toHaveCount(1);
  await sheet.getByRole('button', { name: 'Archived (1)' }).click();
  await expect(row).toBeVisible();
  await row.getByRole('button', { name: 'Bring back' }).click();
  await sheet.getByRole('button', { name: 'Archived (0)' }).click();
  await sheet.getByRole('searchbox').fill('');
  expect(await names(sheet)).toEqual([`${first} 2`, second, first]);
  // The open one too can be deleted; it can be had back as well.
  await sheet.getByRole('button', { name: `Delete ${second}`, exact: true }).click();
  await expect(sheet.locator('.job')).toHaveCount(2);
  await sheet.getByRole('button', { name: 'Undo delete' }).click();
  await expect(sheet.locator('.job')).toHaveCount(3);
  await sheet.getByRole('button', { name: `Delete ${first} 2`, exact: true }).click();
  await expect(sheet.locator('.job')).toHaveCount(2);
  await page.reload();
  expect(await names(await list(page))).toEqual([second, first]);
  await expect(sheet.getByRole('listitem', { name: first, exact: true }).getByLabel('Place of')).toHaveValue('12 Mill Lane');
});

test.describe('with keys alone', () => {
  test('a job is found and opened, a version kept and restored', async ({ page }) => {
    await openDemo(page, FIRST);
    await nudge(page);
    const first = await savedText(page);
    await another(page, SECOND);
    await nudge(page);
    await page.locator('.menu > summary').focus();
    await page.keyboard.press('Enter');
    await page.locator('.menu').getByRole('button', { name: 'All jobs' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type(nameOf(FIRST).slice(0, 8).toLowerCase());
    const open = page.locator('.job-open', { hasText: nameOf(FIRST) });
    for (let i = 0; i < 6 && !(await open.evaluate((it) => it === document.activeElement)); i += 1) await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect(page.locator('.sheet.jobs')).toHaveCount(0);
    await settled(page);
    expect(await savedText(page)).toBe(first);
    await menu(page, 'Versions of this job');
    await page.getByLabel('Keep the job as it stands').focus();
    await page.keyboard.type('For the owner');
    await page.keyboard.press('Enter');
    await expect(page.locator('.version', { hasText: 'For the owner' })).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(page.locator('.sheet.versions')).toHaveCount(0);
  });
});

test('versions say what was changed since, come back, and that undoes', async ({ page }) => {
  await openDemo(page, FIRST);
  await nudge(page);
  const before = await savedText(page);
  await menu(page, 'Versions of this job');
  const sheet = page.locator('.sheet.versions');
  // As it was opened: put aside before the first change.
  await expect(sheet.locator('.version')).toHaveCount(1);
  await sheet.getByLabel('Keep the job as it stands').fill('Shown to the owner');
  await sheet.getByRole('button', { name: 'Keep it' }).click();
  await expect(sheet.locator('.version')).toHaveCount(2);
  await sheet.getByRole('button', { name: 'Close' }).click();
  await nudge(page);
  await nudge(page, 'f');
  const after = await savedText(page);
  await menu(page, 'Versions of this job');
  await sheet.locator('.version-head', { hasText: 'Shown to the owner' }).click();
  await expect(sheet.locator('.changes')).toContainText("Shell moved by 1'-0\".");
  await expect(sheet.locator('.changes')).toContainText('Shell flipped.');
  await sheet.getByRole('button', { name: 'Restore this version' }).click();
  await expect(sheet).toHaveCount(0);
  await settled(page);
  expect(await savedText(page)).toBe(before);
  await page.getByRole('button', { name: 'Undo: restore a version' }).click();
  await settled(page);
  expect(await savedText(page)).toBe(after);
  await menu(page, 'Versions of this job');
  await sheet.locator('.version-head', { hasText: 'Shown to the owner' }).click();
  await sheet.getByRole('button', { name: 'Open it as a job of its own' }).click();
  await expect(page.getByLabel('Name of the job')).toHaveValue(`Copy of ${nameOf(FIRST)} 2`);
  expect(await names(await list(page))).toHaveLength(2);
});

test.describe('two tabs', () => {
  test('the second follows, cannot edit, takes over, and works on when the first is closed', async ({ page, context }) => {
    await openDemo(page, FIRST);
    await nudge(page);
    await keptOnDevice(page);
    const other = await context.newPage();
    await other.goto('./?bench');
    const bar = other.locator('.keep-bar');
    await expect(bar).toContainText('worked on in another tab');
    expect(await savedText(other)).toBe(await savedText(page));

    await test.step('it sees what is saved', async () => {
      await page.bringToFront();
      await nudge(page);
      const text = await savedText(page);
      await expect.poll(() => savedText(other)).toBe(text);
    });
    await test.step('it cannot edit', async () => {
      await other.bringToFront();
      const text = await savedText(other);
      await nudge(other);
      await nudge(other, 'f');
      await other.keyboard.press('Control+z');
      await settled(other);
      expect(await savedText(other)).toBe(text);
      await other.locator('.findings').getByRole('button', { name: 'Go on' }).click();
    });
    await test.step('it takes over, and the first follows', async () => {
      await bar.getByRole('button', { name: 'Work on it here' }).click();
      await expect(bar).toHaveCount(0);
      await expect(page.locator('.keep-bar')).toContainText('worked on in another tab');
      await nudge(other);
      const text = await savedText(other);
      await expect.poll(() => savedText(page)).toBe(text);
    });
    await test.step('the first has it back once the other is closed, with its undo', async () => {
      await keptOnDevice(other);
      const text = await savedText(other);
      await other.close();
      await page.bringToFront();
      await expect(page.locator('.keep-bar')).toHaveCount(0);
      expect(await savedText(page)).toBe(text);
      for (let i = 0; i < 3; i += 1) await page.getByRole('button', { name: 'Undo: nudge shell' }).click();
      await expect(page.getByRole('button', { name: 'Nothing to undo' })).toBeVisible();
    });
    await test.step('a job open in another tab is not deleted', async () => {
      const third = await context.newPage();
      await third.goto('./?bench');
      await expect(third.locator('.keep-bar')).toBeVisible();
      await another(third, SECOND);
      const sheet = await list(third);
      await sheet.getByRole('button', { name: `Delete Copy of ${nameOf(FIRST)}` }).click();
      await expect(third.locator('.notice')).toContainText('open in another tab');
      await expect(sheet.locator('.job')).toHaveCount(1);
    });
  });

  test('without locks neither overwrites the other: what came second becomes a job of its own', async ({ page, context }) => {
    await context.addInitScript(() => {
      Object.defineProperty(Navigator.prototype, 'locks', { get: () => undefined });
      Object.defineProperty(window, 'BroadcastChannel', { value: undefined });
      delete (window as Partial<Window & { BroadcastChannel: unknown }>).BroadcastChannel;
    });
    await openDemo(page, FIRST);
    await nudge(page);
    await keptOnDevice(page);
    const other = await context.newPage();
    await other.goto('./?bench');
    await expect(other.locator('.clearance').first()).toBeVisible();
    await nudge(page);
    await keptOnDevice(page);
    const mine = await savedText(page);
    await nudge(other, 'f');
    await expect(other.locator('.keep-bar')).toContainText('Nothing was overwritten');
    const sheet = await list(other);
    await expect(sheet.locator('.job')).toHaveCount(2);
    await other.keyboard.press('Escape');
    await other.getByRole('button', { name: 'Show the other one' }).click();
    await expect.poll(() => savedText(other)).toBe(mine);
  });
});

test('a tab that dies while it saves leaves a whole job, with what was painted a moment before', async ({ page, context }) => {
  await openDemo(page, FIRST);
  await nudge(page);
  await keptOnDevice(page);
  const seen = [await savedText(page)];
  for (let i = 0; i < 4; i += 1) {
    await nudge(page);
    seen.push(await savedText(page));
  }
  const browser = await context.newCDPSession(page);
  // It never answers: the page is gone with it.
  void browser.send('Page.crash').catch(() => {});
  await page.waitForEvent('crash');
  await page.close();
  const again = await context.newPage();
  await again.goto('./?bench');
  await expect(again.locator('.clearance').first()).toBeVisible();
  expect(seen).toContain(await savedText(again));
  await expect(again.getByRole('button', { name: 'Undo: nudge shell' })).toBeVisible();
  await nudge(again);
  await keptOnDevice(again);

  // Killed as soon as an edit is said to be kept: it is.
  await nudge(again);
  const last = await savedText(again);
  await expect(again.locator('.kept')).toHaveText('Kept');
  await again.close({ runBeforeUnload: false });
  const third = await context.newPage();
  await third.goto('./?bench');
  await expect(third.locator('.clearance').first()).toBeVisible();
  expect(await savedText(third)).toBe(last);
});

test('a browser that keeps nothing says so, and the work goes into a file', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', {
      get: () => {
        throw new DOMException('not allowed', 'SecurityError');
      },
    });
  });
  await openDemo(page, FIRST);
  await nudge(page);
  const bar = page.locator('.keep-bar[data-kind="bad"]');
  await expect(bar).toContainText('keeps nothing on this device');
  const downloading = page.waitForEvent('download');
  await bar.getByRole('button', { name: 'Save it as a file' }).click();
  expect(readFileSync(await (await downloading).path(), 'utf8')).toBe(await savedText(page));
  // It lasts, and the other job is not lost by opening a second one.
  await another(page, SECOND);
  await expect(bar.getByRole('button', { name: `Save Copy of ${nameOf(FIRST)} as a file` })).toBeVisible();
});

test('a full device says so for as long as it is full, and then keeps what waited', async ({ page }) => {
  await openDemo(page, FIRST);
  await nudge(page);
  await keptOnDevice(page);
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    Object.assign(window, { mend: () => (IDBObjectStore.prototype.put = put) });
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
  });
  await nudge(page);
  const bar = page.locator('.keep-bar[data-kind="bad"]');
  await expect(bar).toContainText('storage on this device is full');
  await expect(page.locator('.kept')).toHaveText('Not kept');
  await page.screenshot({ path: join(RESULTS, 'jobs-full.png') });
  const text = await savedText(page);
  const downloading = page.waitForEvent('download');
  await bar.getByRole('button', { name: 'Save it as a file' }).click();
  expect(readFileSync(await (await downloading).path(), 'utf8')).toBe(text);
  await bar.getByRole('button', { name: 'Try again' }).click();
  await expect(bar).toBeVisible();
  await page.evaluate(() => (window as unknown as { mend: () => void }).mend());
  await bar.getByRole('button', { name: 'Try again' }).click();
  await expect(bar).toHaveCount(0);
  await keptOnDevice(page);
});

test('all jobs go out to one file and come back; those that are here stay as they are', async ({ page }) => {
  await openDemo(page, FIRST);
  await nudge(page);
  await another(page, SECOND);
  await nudge(page);
  await expect(page.locator('.kept')).toHaveText('Kept');
  const sheet = await list(page);
  const downloading = page.waitForEvent('download');
  await sheet.getByRole('button', { name: 'Save all jobs to a file' }).click();
  const text = readFileSync(await (await downloading).path(), 'utf8');
  await sheet.getByRole('button', { name: `Delete Copy of ${nameOf(FIRST)}` }).click();
  await expect(sheet.locator('.job')).toHaveCount(1);
  await openFile(page, text, 'jobs.json');
  await expect(page.locator('.notice')).toContainText('1 job brought in from jobs.json. 1 job in it was here already');
  expect((await names(sheet)).toSorted()).toEqual([`Copy of ${nameOf(FIRST)}`, `Copy of ${nameOf(SECOND)}`].toSorted());

  // One that is another now comes in beside the one that is here.
  const file = JSON.parse(text) as { jobs: { site: { note?: string; lot?: unknown } }[] };
  for (const job of file.jobs) job.site.note = 'written elsewhere';
  delete file.jobs[1]?.site.lot;
  await openFile(page, JSON.stringify(file), 'other.json');
  const findings = page.locator('.findings');
  await expect(findings).toContainText('Not everything in other.json could be brought in');
  await expect(findings).toContainText('/jobs/1/site');
  await findings.getByRole('button', { name: 'Go on' }).click();
  await expect(sheet.locator('.job')).toHaveCount(3);

  await openFile(page, text.slice(0, text.length / 2), 'broken.json');
  await expect(findings).toContainText('breaks off or is not JSON');
  await expect(findings).toContainText('How to mend it');
  await findings.getByRole('button', { name: 'Go on' }).click();
  await expect(sheet.locator('.job')).toHaveCount(3);
});

test('what was kept before there were jobs is the first of them', async ({ page }) => {
  await page.goto('./icon.svg');
  const text = demoText(FIRST);
  await page.evaluate(
    (site) =>
      new Promise<void>((done) => {
        const opening = indexedDB.open('batterboard', 1);
        opening.onupgradeneeded = () => opening.result.createObjectStore('documents');
        opening.onsuccess = () => {
          const writing = opening.result.transaction('documents', 'readwrite');
          writing.objectStore('documents').put(site, 'open-work');
          writing.oncomplete = () => {
            opening.result.close();
            done();
          };
        };
      }),
    text,
  );
  await page.goto('./?bench');
  await expect(page.locator('.clearance').first()).toBeVisible();
  await expect(page.getByLabel('Name of the job')).toHaveValue(nameOf(FIRST));
  expect(await names(await list(page))).toEqual([nameOf(FIRST)]);
});

for (const { name, viewport, hasTouch } of SCREENS) {
  test.describe(`on ${name}`, () => {
    test.use({ viewport, hasTouch });

    test('list, versions and first sheet are there to be used', async ({ page }) => {
      const press = (it: Locator) => (hasTouch ? it.tap() : it.click());
      await firstVisit(page);
      for (const file of DEMO_SITES) {
        await openFile(page, demoText(file), file);
        await nudge(page);
      }
      await expect.poll(() => page.evaluate(() => document.querySelector('.kept')?.textContent)).toBe('Kept');
      await press(page.locator('.menu > summary'));
      await press(page.locator('.menu').getByRole('button', { name: 'All jobs' }));
      const sheet = page.locator('.sheet.jobs');
      await expect(sheet.locator('.job')).toHaveCount(DEMO_SITES.length);
      await expect(sheet.locator('img.small-plan')).toHaveCount(DEMO_SITES.length);
      await page.screenshot({ path: join(RESULTS, `jobs-list-${name}.png`) });
      const more = sheet.locator('.job-more').first();
      if (await more.isVisible()) await press(more);
      await expect(sheet.getByLabel('Place of').first()).toBeVisible();
      await sheet.getByLabel('Place of').first().fill('12 Mill Lane');
      await sheet.getByLabel('Place of').first().blur();
      await sheet.getByLabel('Status of').first().selectOption({ label: 'Ready to dig' });
      await page.screenshot({ path: join(RESULTS, `jobs-row-${name}.png`) });
      // Nothing is wider than the sheet, and what is pressed by a finger is large enough.
      const wide = await sheet.evaluate((it) => it.scrollWidth - it.clientWidth);
      expect(wide).toBeLessThanOrEqual(0);
      if (hasTouch) {
        const heights = await sheet.locator('button, select, input:visible').evaluateAll((all) =>
          all.filter((it) => it.getClientRects().length > 0 && !it.classList.contains('unseen')).map((it) => it.getBoundingClientRect().height),
        );
        expect(Math.min(...heights)).toBeGreaterThanOrEqual(43.5);
      }
      await press(sheet.locator('.job-open').last());
      await expect(sheet).toHaveCount(0);
      await nudge(page);
      await press(page.locator('.menu > summary'));
      await press(page.locator('.menu').getByRole('button', { name: 'Versions of this job' }));
      await page.getByLabel('Keep the job as it stands').fill('Shown to the owner');
      await press(page.getByRole('button', { name: 'Keep it' }));
      await press(page.locator('.version-head').last());
      await expect(page.locator('.changes li').first()).toBeVisible();
      await page.screenshot({ path: join(RESULTS, `jobs-versions-${name}.png`) });
      await page.keyboard.press('Escape');
      await press(page.locator('.menu > summary'));
      await press(page.locator('.menu').getByRole('button', { name: 'Start or open another job' }));
      await expect(page.locator('.latest-job').first()).toBeVisible();
      await expect(page.locator('.demo')).toHaveCount(DEMO_SITES.length);
      await page.screenshot({ path: join(RESULTS, `jobs-first-${name}.png`) });
      await press(page.locator('.latest-job').first());
      await expect(page.locator('.welcome')).toHaveCount(0);
    });
  });
}
