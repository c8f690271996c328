// Text read by the core: what is understood is there at once, and a text that the core dies of is a crash like any
// other: the work is open again.
import { expect, test, type Page } from '@playwright/test';
import { openDemo, openStep, savedText } from './site.ts';

// Requests have to be seen and broken here, not by the service worker.
test.use({ serviceWorkers: 'block' });

async function openDeed(page: Page) {
  await openDemo(page, 'level-suburban.json');
  await openStep(page, 'Lot');
  await page.getByText('Courses from a deed').click();
  return page.getByLabel('Deed or list of courses');
}

const understood = (page: Page) => page.getByRole('group', { name: 'What was understood' });

test('it is read as it is typed, and nothing more is loaded for it', async ({ page }) => {
  const box = await openDeed(page);
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await box.fill('N 0 E 100');
  await expect(understood(page)).toContainText('side 1');
  await box.fill('N 0 E 100\nS 45 E 20');
  await expect(understood(page)).toContainText('side 2');
  expect(asked).toEqual([]);
});

test('after a crash a fresh one reads the next text, and the site is as it was', async ({ page }) => {
  // The first life of the module dies of every deed.
  await page.route(/batterboard_web[^/]*\.js$/, async (route) => {
    const answer = await route.fetch();
    const text = await answer.text();
    const broken = text.replace(/\bread_deed\(/, "read_deed() { throw new Error('crash'); }\n    whole(");
    expect(broken).not.toBe(text);
    await route.fulfill({ response: answer, body: broken });
  });
  const box = await openDeed(page);
  const before = await savedText(page);
  await box.fill('N 0 E 100');
  await expect(page.locator('.notice')).toContainText('had to restart');
  await expect.poll(() => savedText(page)).toBe(before);
  await box.fill('N 0 E 120');
  await expect(understood(page)).toContainText('side 1');
  expect(await savedText(page)).toBe(before);
});
