// The browser's half of `cargo xtask bench`: specs named *.bench.ts, timed on the built page.
// Each writes its figures to results/bench.json, which the runner prints as a table.
import { defineConfig } from '@playwright/test';
import base from './playwright.config.ts';

export default defineConfig(base, {
  testMatch: '**/*.bench.ts',
  timeout: 180_000,
});
