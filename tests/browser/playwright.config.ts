// End-to-end tests against the built page, which is served meanwhile: on PORT, which `cargo xtask test
// --only browser` picks, unless BASE_URL says that it is served already. The default screen is 1280x800 with a mouse; a spec
// that wants another screen or a finger says so itself: test.use({ viewport, hasTouch }). Two tests run side by side, so
// none may measure time. No trace is taken: `cargo xtask test` runs what failed once more, alone and with a trace, for
// the reader; it has failed all the same.
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
  fullyParallel: true,
  workers: 2,
  reporter: [['list'], ['json', { outputFile: './results/outcomes.json' }]],
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
    // It would fetch the page a second time in every test; the specs that open a page again let it.
    serviceWorkers: 'block',
    launchOptions,
  },
});
