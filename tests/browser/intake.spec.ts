// The module that reads text: loaded at the first text, asked for again where it could not be had, and made
// anew after a crash.
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

test('it is loaded when text is first read, and not before', async ({ page }) => {
  const asked: string[] = [];
  page.on('request', (request) => request.url().includes('batterboard_intake') && asked.push(request.url()));
  const box = await openDeed(page);
  expect(asked).toEqual([]);
  await box.fill('N 0 E 100');
  await expect(understood(page)).toContainText('side 1');
  expect(asked).toHaveLength(2);
  await box.fill('N 0 E 100\nS 45 E 20');
  await expect(understood(page)).toContainText('side 2');
  expect(asked).toHaveLength(2);
});

test('where it cannot be had that is said, and the next text asks again', async ({ page }) => {
  const box = await openDeed(page);
  await page.route('**/batterboard_intake*.wasm', (route) => route.abort());
  await box.fill('N 0 E 100');
  await expect(page.getByText('The text could not be read')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Use these courses' })).toBeDisabled();
  await page.unroute('**/batterboard_intake*.wasm');
  await box.fill('N 0 E 120');
  await expect(understood(page)).toContainText('side 1');
  await expect(page.getByText('The text could not be read')).toBeHidden();
});

test('after a crash a fresh one reads the next text, and the site is as it was', async ({ page }) => {
  // The first life of the module dies of every deed.
  await page.route(/batterboard_intake[^/]*\.js$/, async (route) => {
    const answer = await route.fetch();
    const text = await answer.text();
    const broken = text.replace('export function read_deed(', "export function read_deed() { throw new Error('crash'); }\nfunction whole(");
    expect(broken).not.toBe(text);
    await route.fulfill({ response: answer, body: broken });
  });
  const box = await openDeed(page);
  const before = await savedText(page);
  await box.fill('N 0 E 100');
  await expect(page.getByText('The text could not be read')).toBeVisible();
  await box.fill('N 0 E 120');
  await expect(understood(page)).toContainText('side 1');
  expect(await savedText(page)).toBe(before);
});
