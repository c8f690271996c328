// The page's folder under any static host: a server that sends files and nothing else, below a path; then without it, with all
// that is fetched later.
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from '@playwright/test';
import { DEMO_SITES, keptOnDevice, listEveryClearance, openDemo, readLedger, settled } from './site.ts';

const FOLDER = fileURLToPath(new URL('../../www/dist/', import.meta.url));
const BELOW = '/yards/plans/';

/** What any file server knows of the endings here. */
const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
};

/** Sends the files of the page's folder, with their type and no other header. */
function host(): Promise<Server> {
  const server = createServer((request, answer) => {
    const path = decodeURIComponent(new URL(request.url ?? '', 'http://it').pathname);
    const inside = normalize(path.slice(BELOW.length) || 'index.html');
    const file = join(FOLDER, inside);
    if (!path.startsWith(BELOW) || inside.startsWith('..') || !existsSync(file) || !statSync(file).isFile()) {
      answer.writeHead(404).end();
      return;
    }
    answer.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' });
    createReadStream(file).pipe(answer);
  });
  return new Promise((done) => server.listen(0, '127.0.0.1', () => done(server)));
}

test.use({ serviceWorkers: 'allow' });

test('a plain file server below a path is enough, and after the first visit not even that', async ({ browser }) => {
  const server = await host();
  const { port } = server.address() as AddressInfo;
  const context = await browser.newContext({ baseURL: `http://127.0.0.1:${port}${BELOW}`, serviceWorkers: 'allow' });
  try {
    const page = await context.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    await openDemo(page, DEMO_SITES[1] ?? '');
    await expect(page.locator('.foot-offline')).toBeVisible({ timeout: 20_000 });
    const ledger = await readLedger(page);
    await keptOnDevice(page);
    server.closeAllConnections();
    await new Promise((done) => server.close(done));
    await page.reload();
    await expect(page.locator('.clearance').first()).toBeVisible();
    await listEveryClearance(page);
    await settled(page);
    expect(await readLedger(page)).toEqual(ledger);
    // What was never asked for before is there too: the sheets' module, and the job in three dimensions.
    await page.keyboard.press('/');
    await page.keyboard.type('in the round');
    await page.keyboard.press('Enter');
    const canvas = page.locator('canvas.space-canvas');
    await expect(canvas).toBeVisible({ timeout: 30_000 });
    await expect.poll(async () => Number(await canvas.getAttribute('data-triangles'))).toBeGreaterThan(1000);
    expect(faults).toEqual([]);
  } finally {
    await context.close();
    server.close();
  }
});
