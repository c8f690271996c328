// The command-line program over the same core: what the page says is held against what it says.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import { reportJson, savedText } from './site.ts';

/** Where the program is; `cargo xtask test` builds it and says so. */
const PROGRAM = process.env['BATTERBOARD_BIN'];

/** What the program prints on the open site, after a command's name and before its flags. */
async function printed(page: Page, command: string, ...flags: string[]): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'batterboard-'));
  try {
    const file = join(folder, 'site.json');
    writeFileSync(file, await savedText(page));
    return execFileSync(PROGRAM ?? '', [command, file, ...flags], { encoding: 'utf8' });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Expects the page's report on the open site to be the program's, to the last byte. */
export async function expectSameReport(page: Page): Promise<void> {
  if (PROGRAM) expect(await reportJson(page)).toBe(await printed(page, 'report', '--json'));
}

/** Expects a list for a spreadsheet to be the program's, to the last byte. */
export async function expectSameList(page: Page, list: string): Promise<void> {
  if (PROGRAM) expect(list).toBe(await printed(page, 'takeoff', '--csv'));
}

/** Expects a sheet that the page saved to be the program's, to the last byte. */
export async function expectSameSheet(page: Page, saved: Buffer, ...flags: string[]): Promise<void> {
  if (!PROGRAM) return;
  const folder = mkdtempSync(join(tmpdir(), 'batterboard-'));
  try {
    const out = join(folder, 'sheet.pdf');
    await printed(page, 'sheet', '--out', out, ...flags);
    expect(saved.equals(readFileSync(out))).toBe(true);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
