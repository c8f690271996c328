// The browser's half of `cargo xtask bench`: specs named *.bench.ts, timed on the built page.
import { defineConfig } from '@playwright/test';
import base from './playwright.config.ts';

export default defineConfig(base, {
  testMatch: '**/*.bench.ts',
  timeout: 180_000,
  // One at a time: what is measured has the machine to itself.
  fullyParallel: false,
  workers: 1,
});
