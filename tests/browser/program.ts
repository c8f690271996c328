// The command-line program over the same core: what the page says is held against what it says.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import { reportJson, savedText } from './site.ts';

/** Where the program is; `cargo xtask test` builds it and says so. */
const PROGRAM = process.env['BATTERBOARD_BIN'];

/** Expects the page's report on the open site to be the program's, to the last byte. */
export async function expectSameReport(page: Page): Promise<void> {
  if (!PROGRAM) return;
  const folder = mkdtempSync(join(tmpdir(), 'batterboard-'));
  try {
    const file = join(folder, 'site.json');
    writeFileSync(file, await savedText(page));
    const printed = execFileSync(PROGRAM, ['report', file, '--json'], { encoding: 'utf8' });
    expect(await reportJson(page)).toBe(printed);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
