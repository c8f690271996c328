// End-to-end tests against the built page, which is served meanwhile: on PORT, which `cargo xtask test
// --only browser` picks, unless BASE_URL says that it is served already. The default screen is 1280x800 with a mouse; a spec
// that wants another screen or a finger says so itself: test.use({ viewport, hasTouch }).
import { defineConfig } from '@playwright/test';
import { launchOptions } from './launch.ts';

const served = process.env['BASE_URL'];
const port = process.env['PORT'] ?? '8642';
const baseURL = served ?? `http://127.0.0.1:${port}/`;

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
  ...(!served && {
    webServer: {
      command: `npx --no-install vite preview --port ${port} --strictPort`,
      cwd: '../../www',
      url: baseURL,
      reuseExistingServer: false,
    },
  }),
  use: {
    baseURL,
    browserName: 'chromium',
    viewport: { width: 1280, height: 800 },
    trace: 'retain-on-failure',
    launchOptions,
  },
});
