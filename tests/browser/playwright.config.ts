// End-to-end tests against the built page. `cargo xtask test --only browser` serves the page on a
// free port and passes the address in BASE_URL. The default screen is 1280x800 with a mouse; a spec
// that wants another screen or a finger says so itself: test.use({ viewport, hasTouch }).
import { defineConfig } from '@playwright/test';
import { launchOptions } from './launch.ts';

export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: './results/traces',
  timeout: 60_000,
  expect: { timeout: 10_000 },
  forbidOnly: !!process.env['CI'],
  retries: 0,
  workers: 1,
  reporter: [['list']],
  use: {
    baseURL: process.env['BASE_URL'] ?? 'http://127.0.0.1:8642/',
    browserName: 'chromium',
    viewport: { width: 1280, height: 800 },
    trace: 'retain-on-failure',
    launchOptions,
  },
});
