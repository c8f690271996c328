// The page in Spanish: chosen in the menu at every screen without losing anything of the work, spoken on all main screens, nothing cut
// off, no text left in English that the catalogue has in Spanish; by itself where the device asks for it; and without a network.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { faults } from './access.ts';
import { SCREENS } from './screens.ts';
import { DEMO_SITES, demoText, keptOnDevice, openDemo, openFile, settled, standing } from './site.ts';

const RICH = 'creek-side-deed.json';
const WORDS = join(import.meta.dirname, '../../www/words');

const unquoted = (text: string): string => JSON.parse(text) as string;

/** Every English text of the page's catalogue whose Spanish reads otherwise. A line each: the catalogue is written so. */
const ENGLISH = new Set(
  [...readFileSync(join(WORDS, 'es.po'), 'utf8').matchAll(/^msgid (".+")\n(?:msgid_plural .*\n)?msgstr(?:\[0\])? (".*")$/gm)]
    .map(([, english = '""', spanish = '""']) => [unquoted(english), unquoted(spanish)] as const)
    .filter(([english, spanish]) => english !== spanish)
    .map(([english]) => english),
);

/** Spanish that is written as an English text of another meaning. */
const SPANISH_TOO = new Set(['Plan', 'Color', 'Error', 'Total']);

/** The device speaks a language, as it remembers it. */
async function speaking(page: Page, language: string): Promise<void> {
  await page.addInitScript((it) => localStorage.setItem('language', JSON.stringify(it)), language);
}

/** Chooses a language in the menu. */
async function choose(page: Page, language: 'English' | 'Español'): Promise<void> {
  await page.locator('.menu > summary').click();
  await page.getByLabel('English / Español').selectOption({ label: language });
  await expect(page.locator('html')).toHaveAttribute('lang', language === 'English' ? 'en' : 'es');
  await page.keyboard.press('Escape');
}

/** What can be read or heard on the page as it stands and is English that the catalogue has in Spanish. */
async function leftInEnglish(page: Page): Promise<string[]> {
  await settled(page);
  const all = await page.evaluate(() => {
    const texts: string[] = [];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const it = walk.currentNode;
      if (it.parentElement && !it.parentElement.closest('script, style, noscript, pre, .deed-words')) texts.push(it.textContent ?? '');
    }
    for (const name of ['aria-label', 'title', 'placeholder', 'alt', 'aria-roledescription', 'data-head']) {
      for (const it of document.querySelectorAll(`[${name}]`)) texts.push(it.getAttribute(name) ?? '');
    }
    return texts.map((it) => it.replace(/\s+/g, ' ').trim());
  });
  return [...new Set(all)].filter((it) => ENGLISH.has(it) && !SPANISH_TOO.has(it));
}

/** Words that run out of their box without a sign of it, and a page that is wider than its window. */
async function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const wide = document.documentElement.scrollWidth - window.innerWidth;
    const cut = [...document.querySelectorAll<HTMLElement>('button, label, summary, h2, h3, th, dt, option, .band-label, .kept')].filter((it) => {
      if (!it.checkVisibility() || it.closest('.unseen, option')) return false;
      const { overflowX, overflowY, textOverflow } = getComputedStyle(it);
      const across = it.scrollWidth > it.clientWidth + 1 && (overflowX === 'hidden' ? textOverflow !== 'ellipsis' : it.tagName === 'BUTTON');
      return across || (it.scrollHeight > it.clientHeight + 3 && (overflowY === 'hidden' || it.tagName === 'BUTTON'));
    });
    return [...(wide > 0 ? [`the page is ${wide} px too wide`] : []), ...cut.map((it) => `${it.tagName} ${it.className}: ${it.textContent}`)];
  });
}

async function unfold(page: Page): Promise<void> {
  for (let depth = 0; depth < 3; depth += 1) {
    await page.evaluate(() => document.querySelectorAll<HTMLDetailsElement>('dialog[open] details:not([open]), .panel details:not([open])').forEach((it) => (it.open = true)));
    await settled(page);
  }
}

for (const { name, ...screen } of SCREENS) {
  test.describe(`at ${name}`, () => {
    test.use(screen);

    test('another language is chosen with a job and a panel open, and nothing of the work is lost', async ({ page }) => {
      await openDemo(page, RICH, 'as left');
      await page.locator('.strip-step').nth(3).click();
      await page.getByLabel('Shell bearing').fill('37');
      await page.getByLabel('Shell bearing').press('Enter');
      const before = await standing(page);
      await choose(page, 'Español');
      await expect(page.getByLabel('Rumbo del casco')).toHaveValue(/^37/);
      await expect(page.getByRole('heading', { name: 'El casco y dónde está' })).toBeVisible();
      expect(await standing(page)).toEqual(before);
      await page.getByRole('button', { name: /^Deshacer: girar casco/ }).click();
      await expect(page.getByLabel('Rumbo del casco')).not.toHaveValue(/^37/);
      await page.getByRole('button', { name: /^Rehacer: girar casco/ }).click();
      await choose(page, 'English');
      await expect(page.getByLabel('Shell bearing')).toHaveValue(/^37/);
      expect(await standing(page)).toEqual(before);
    });

    test('the main screens speak Spanish, and nothing is cut off', async ({ page }) => {
      test.slow();
      await speaking(page, 'es');
      await page.goto('./?bench');
      await expect(page.locator('.demo')).toHaveCount(DEMO_SITES.length);
      const seen = async (what: string): Promise<void> => {
        expect.soft(await leftInEnglish(page), `${what} in English`).toEqual([]);
        expect.soft(await cutOff(page), `${what} cut off`).toEqual([]);
      };
      await seen('the first sheet');
      await openDemo(page, RICH, 'as left');
      await seen('plan and ledger');
      for (const [at, head] of ['El lote y sus reglas', 'Lo que hay sobre y bajo el lote', 'El terreno antes de excavar', 'El casco y dónde está', 'La excavación y lo que lleva'].entries()) {
        await page.locator('.strip-step').nth(at).click();
        await expect(page.getByRole('heading', { name: head })).toBeVisible();
        await expect(page.locator('[data-loading]')).toHaveCount(0);
        await unfold(page);
        await seen(head);
      }
      await page.locator('.strip-step').nth(4).click();
      const sheets = ['Versiones de este trabajo', 'El libro de la empresa', 'Escribir mapa, lista o levantamiento', 'Estacas y niveles', 'Hojas para imprimir', 'Vista del dueño', 'Informe', 'Teclas y gestos', 'Fuentes y licencias', 'Trabajos'];
      for (const sheet of sheets) {
        await page.locator('.menu > summary').click();
        if (sheet === sheets[0]) await seen('the menu');
        await page.locator('.menu').getByRole('button', { name: sheet, exact: true }).click();
        await expect(page.locator('dialog[open] :is(h2, h3)').first()).toBeVisible();
        await expect(page.locator('dialog[open] p', { hasText: 'Se está cargando' })).toHaveCount(0);
        await unfold(page);
        await seen(sheet);
        await page.keyboard.press('Escape');
        await expect(page.locator('dialog[open]')).toHaveCount(0);
      }
    });
  });
}

test('no fault of access in Spanish, and the language is told to whoever listens', async ({ page }) => {
  await speaking(page, 'es');
  await openDemo(page, RICH, 'as left');
  expect(await faults(page, ['html-has-lang', 'html-lang-valid', 'valid-lang', 'label', 'button-name', 'select-name'])).toEqual([]);
  await expect(page.locator('html')).toHaveAttribute('lang', 'es');
});

test('anything is found by its Spanish and by its English words, with accents or without', async ({ page }) => {
  await speaking(page, 'es');
  await openDemo(page, RICH, 'as left');
  await page.keyboard.press('/');
  const found = page.getByRole('listbox').getByRole('option');
  for (const [typed, name] of [
    ['voltear', 'Voltear el casco'],
    ['flip', 'Voltear el casco'],
    ['excavacion', 'La excavación y lo que lleva'],
    ['total cut', 'Corte total'],
    ['corte total', 'Corte total'],
  ]) {
    await page.getByRole('combobox').fill(typed ?? '');
    await expect(found.filter({ hasText: name ?? '' }).first()).toBeVisible();
  }
  await page.getByRole('combobox').fill('english');
  await page.keyboard.press('Enter');
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
});

test('the homeowner’s view and the sheets that come in both languages follow the page', async ({ page }) => {
  await speaking(page, 'es');
  await openDemo(page, RICH, 'as left');
  await page.locator('.menu > summary').click();
  await page.getByRole('button', { name: 'Vista del dueño' }).click();
  await expect(page.locator('.shown-told dt').first()).toHaveText(/Largo|Tamaño|Casco|Profundidad|Agua|Piscina/);
  await page.keyboard.press('Escape');
  await page.locator('.menu > summary').click();
  await page.getByRole('button', { name: 'Hojas para imprimir' }).click();
  await page.getByRole('radio', { name: /^Hoja de excavación/ }).check();
  await expect(page.getByLabel('Idioma')).toHaveValue('spanish');
});

test.describe('on a device that asks for Spanish first', () => {
  test.use({ locale: 'es-MX' });

  test('the page speaks it from the first visit, and a new job begins in meters', async ({ page }) => {
    await page.goto('./?bench');
    await expect(page.getByRole('heading', { name: '¿Dónde cabe el casco en este lote?' })).toBeVisible();
    await expect(page.locator('html')).toHaveAttribute('lang', 'es');
    await page.getByRole('button', { name: /^Empezar con un lote vacío/ }).click();
    await expect(page.getByRole('button', { name: 'Metros (m)' })).toHaveAttribute('aria-pressed', 'true');
    await expect(page.getByLabel('Nombre del trabajo')).toHaveValue('Trabajo nuevo');
    // A job that is opened keeps its own units.
    await openFile(page, demoText(RICH));
    await expect(page.getByRole('button', { name: 'Pies (ft)' })).toHaveAttribute('aria-pressed', 'true');
  });
});

test('English fetches no Spanish', async ({ page }) => {
  const fetched: string[] = [];
  page.on('request', (it) => fetched.push(it.url()));
  await openDemo(page, RICH, 'as left');
  expect(fetched.some((it) => it.includes('/assets/'))).toBe(true);
  expect(fetched.filter((it) => it.includes('spanish'))).toEqual([]);
  await choose(page, 'Español');
  await expect(page.getByRole('button', { name: 'Fijar cifras' })).toBeVisible();
  expect(fetched.filter((it) => it.includes('/later/spanish'))).toHaveLength(1);
});

test.describe('once the page was kept on the device', () => {
  test.use({ serviceWorkers: 'allow' });

  test('Spanish is there without a network', async ({ page, context }) => {
    await openDemo(page, RICH, 'as left');
    await expect(page.locator('.foot-offline')).toBeVisible({ timeout: 20_000 });
    await keptOnDevice(page);
    await context.setOffline(true);
    await page.reload();
    await expect(page.locator('.clearance').first()).toBeVisible();
    await choose(page, 'Español');
    await expect(page.getByRole('button', { name: 'Fijar cifras' })).toBeVisible();
    await page.reload();
    await expect(page.getByRole('button', { name: 'Fijar cifras' })).toBeVisible();
  });
});
