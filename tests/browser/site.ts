// What the browser tests share: the demo sites, the way from site meters to the screen, and what the
// ledger says, both as the reader sees it and as the planner has it.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import type { BenchDoor } from '../../www/src/bench-door.ts';

declare global {
  interface Window {
    bench: BenchDoor;
  }
}

const FOLDER = join(import.meta.dirname, '../../demo-sites');

export const demoText = (file: string): string => readFileSync(join(FOLDER, file), 'utf8');

const isSite = (file: string): boolean =>
  (JSON.parse(demoText(file)) as { format?: string }).format === 'batterboard-site';

/** The demo sites' files; reports and the schema lie beside them. */
export const DEMO_SITES = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.json') && isSite(file))
  .sort();

const GROUPS = ['dig', 'grading', 'haul', 'stone', 'concrete', 'rods-and-forms', 'pipe', 'water'];

/** Which groups of quantities are open: all, or those that were. */
type Groups = 'all' | 'as left';

async function openGroups(page: Page, groups: Groups): Promise<void> {
  if (groups === 'as left') return;
  await page.addInitScript((open) => localStorage.setItem('open-groups', JSON.stringify(open)), GROUPS);
}

/** A first visit: the page with its first sheet. */
export async function firstVisit(page: Page): Promise<void> {
  await openGroups(page, 'all');
  await page.goto('./?bench');
  await expect(page.locator('.demo')).toHaveCount(DEMO_SITES.length);
}

/** From this width on a step leaves the plan enough room to stay open, css pixels. */
const WIDE = 1180;

/** The page with a demo site open and painted; with `all`, where the screen is wide, the step Shell is open as well. */
export async function openDemo(page: Page, file: string, groups: Groups = 'all'): Promise<void> {
  await openGroups(page, groups);
  await page.goto(`./?bench=${file}`);
  await expect(page.locator('.clearance').first()).toBeVisible();
  if (groups === 'all') {
    await listEveryClearance(page);
    if ((page.viewportSize()?.width ?? 0) >= WIDE) await openStep(page, 'Shell');
  }
  await settled(page);
}

/** Has the ledger list every clearance, and not the first ones alone. */
export async function listEveryClearance(page: Page): Promise<void> {
  const more = page.locator('.clearance-group .more');
  if ((await more.count()) > 0) await more.evaluate((it: HTMLElement) => it.click());
}

/** Opens a site from a file, in a page that stands at any sheet or job. */
export async function openFile(page: Page, text: string, name = 'picked.json'): Promise<void> {
  await page.locator('#site-file').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  await settled(page);
}

/** Waits until whatever was asked of the page has been painted. Plan and ledger take turns, and the ledger may be due
    first: what a hand did last is in both after four frames. */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    for (let frame = 0; frame < 5; frame += 1) await new Promise((done) => requestAnimationFrame(done));
  });
}

export interface Spot {
  x: number;
  y: number;
}

/** Where a site position lies on the screen, css pixels, once the plan is as large as its place on the page: a panel
that has just opened beside it makes it smaller a frame later. */
export async function onScreen(page: Page, [x, y]: [number, number]): Promise<Spot> {
  const { view, box } = await page.evaluate(async () => {
    const canvas = document.querySelector('.plan-canvas');
    if (!canvas) throw new Error('the plan is not on the screen');
    for (;;) {
      await new Promise((done) => requestAnimationFrame(done));
      const view = window.bench.view();
      if (canvas.clientWidth !== view.width || canvas.clientHeight !== view.height) continue;
      const { x, y } = canvas.getBoundingClientRect();
      return { view, box: { x, y } };
    }
  });
  return {
    x: box.x + view.width / 2 + (x - view.x) * view.scale,
    y: box.y + view.height / 2 - (y - view.y) * view.scale,
  };
}

export interface Standing {
  at: [number, number];
  heading: number;
  mirrored: boolean;
  coping: number;
}

/** Where the shell stands. */
export async function standing(page: Page): Promise<Standing> {
  const shell = await page.evaluate(() => window.bench.ask((p) => p.ledger(0, null).shell, null));
  if (!shell) throw new Error('there is no shell');
  return { at: shell.at, heading: shell.heading_value, mirrored: shell.mirrored, coping: shell.coping_value };
}

/** The middle of the shell on the screen. */
export async function shellOnScreen(page: Page): Promise<Spot> {
  return onScreen(page, (await standing(page)).at);
}

/** The shell's turning handle on the screen: the nearest place along its heading that turns it. */
export async function handleOnScreen(page: Page): Promise<Spot> {
  const at = await page.evaluate(() =>
    window.bench.ask((p): [number, number] | null => {
      const { scale } = window.bench.view();
      const shell = p.ledger(0, null).shell;
      if (!shell) return null;
      const touched: number[] = [];
      for (let reach = 0; reach < 30; reach += 0.02) {
        const x = shell.at[0] + reach * Math.sin(shell.heading_value);
        const y = shell.at[1] + reach * Math.cos(shell.heading_value);
        if (p.hover(x, y, 10 / scale, scale) === 'turn') touched.push(reach);
      }
      const first = touched.at(0);
      const last = touched.at(-1);
      if (first === undefined || last === undefined) return null;
      const middle = (first + last) / 2;
      return [
        shell.at[0] + middle * Math.sin(shell.heading_value),
        shell.at[1] + middle * Math.cos(shell.heading_value),
      ];
    }, null),
  );
  if (!at) throw new Error('no handle was found');
  return onScreen(page, at);
}

/** The site file as it would be saved now. */
export const savedText = (page: Page): Promise<string> => page.evaluate(() => window.bench.ask((p) => p.save(), ''));

/** Waits until the device keeps the site as it stands, so that the page can be opened again. */
export async function keptOnDevice(page: Page): Promise<void> {
  const isKept = () =>
    page.evaluate(async () => {
      const answered = <T>(request: IDBRequest<T>) =>
        new Promise<T>((done, failed) => {
          request.onsuccess = () => done(request.result);
          request.onerror = () => failed(request.error);
        });
      const database = await answered(indexedDB.open('batterboard'));
      try {
        const reading = database.transaction(['desk', 'works']);
        const id = await answered<string>(reading.objectStore('desk').get('open'));
        const work = id ? await answered<{ text: string } | undefined>(reading.objectStore('works').get(id)) : undefined;
        return work?.text === window.bench.ask((p) => p.save_bare(), '');
      } finally {
        database.close();
      }
    });
  await expect.poll(isKept).toBe(true);
}

export const reportJson = (page: Page): Promise<string> =>
  page.evaluate(() => window.bench.report('json'));

/** What the reader sees in the ledger, row by row. */
export async function readLedger(page: Page) {
  const clearances = await page.locator('.clearance').evaluateAll((rows) =>
    rows.map((row) => ({
      name: row.querySelector('.clearance-name')?.textContent ?? '',
      room: row.querySelector('.clearance-room')?.childNodes[1]?.textContent ?? '',
      distance: row.querySelector('.clearance-distance')?.textContent ?? '',
      short: row.getAttribute('data-short') === 'true',
    })),
  );
  const quantities = await page.locator('.quantity').evaluateAll((rows) =>
    rows.map((row) => ({
      key: row.getAttribute('data-key') ?? '',
      value: row.querySelector('.quantity-value')?.textContent ?? '',
    })),
  );
  const verdict = (await page.locator('.verdict h2').innerText()).replaceAll('\u00a0', ' ');
  return { verdict, clearances, quantities };
}

/** The same rows as the planner has them. */
export async function plannerLedger(page: Page) {
  return page.evaluate(() =>
    window.bench.ask((p) => {
      const now = p.ledger(1000, null);
      return {
        verdict: now.verdict.text,
        clearances: now.clearances.flatMap(({ margin, rows }) =>
          rows.map((row) => ({
            name: row.name,
            room: margin === 'short' ? row.room.text : `+${row.room.text}`,
            distance: row.distance.text,
            short: margin === 'short',
          })),
        ),
        quantities: p.tally().quantities.map((row) => ({ key: row.key, value: row.shown.text })),
      };
    }, null),
  );
}

/** The quantities as the report has them: worked out from the saved text by the worker. */
export async function reportedQuantities(page: Page) {
  const { quantities } = JSON.parse(await reportJson(page)) as { quantities: { key: string; shown: { text: string } }[] };
  return quantities.map((row) => ({ key: row.key, value: row.shown.text }));
}

/** Opens the panel of a step. */
export async function openStep(page: Page, name: 'Lot' | 'Yard' | 'Ground' | 'Shell' | 'Dig'): Promise<void> {
  const button = page.locator('.strip-step', { hasText: name });
  if ((await button.getAttribute('aria-expanded')) !== 'true') await button.click();
  await expect(page.locator('.panel')).toBeVisible();
  await settled(page);
}
