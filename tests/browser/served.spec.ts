// How the built page is handed out: under a policy that lets nothing leave the device, each file by its right name, and
// nothing beside the page's own folder.
import { expect, test } from '@playwright/test';

test('every answer carries the policy', async ({ request }) => {
  const answer = await request.get('./');
  expect(answer.status()).toBe(200);
  const headers = answer.headers();
  expect(headers['content-type']).toMatch(/^text\/html/);
  expect(headers['content-security-policy']).toContain("default-src 'self'");
  expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
  expect(headers['cross-origin-opener-policy']).toBe('same-origin');
  expect(headers['cross-origin-embedder-policy']).toBe('require-corp');
  expect(headers['x-content-type-options']).toBe('nosniff');
});

test('the module is called what it is, so that it compiles while it streams', async ({ page }) => {
  const [answer] = await Promise.all([page.waitForResponse((it) => it.url().endsWith('.wasm')), page.goto('./')]);
  expect(answer.headers()['content-type']).toBe('application/wasm');
});

test('what is no part of the page is not there', async ({ request }) => {
  for (const path of ['nothing.js', '%2e%2e/package.json', '..%2fpackage.json', 'assets/%2e%2e/%2e%2e/package.json'])
    expect((await request.get(`./${path}`)).status(), path).toBeGreaterThanOrEqual(400);
});
