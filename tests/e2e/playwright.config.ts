import { defineConfig } from '@playwright/test';
import { findChromium, isRoot } from '../support/chromium.mjs';
import { workersAtOnce } from '../support/workersAtOnce.mjs';

const executablePath = findChromium();

const seconds = 1000;
const minutes = 60 * seconds;

/**
 * As many files side by side as there are cores, up to two, each with a server (dist/main.js), a data folder and a browser of its own; no second try. `npm test`
 * has built the app by then. Time-outs are nets for what hangs; a test fails by what it sees.
 */
export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: process.env['TEST_RESULTS'] ?? 'out',
  workers: workersAtOnce(),
  fullyParallel: false,
  retries: 0,
  forbidOnly: true,
  timeout: 15 * minutes,
  expect: { timeout: 60 * seconds },
  globalTimeout: 60 * minutes,
  use: {
    headless: true,
    locale: 'en-GB',
    actionTimeout: 60 * seconds,
    navigationTimeout: 60 * seconds,
    // What was done, asked and answered, without a film or the document after every step, which cost a fifth of what the scoring file's tests need. `--trace on` has both.
    trace: { mode: 'retain-on-failure', screenshots: false, snapshots: false },
    screenshot: 'only-on-failure',
    launchOptions: {
      ...(executablePath === undefined ? {} : { executablePath }),
      args: [
        '--headless',
        ...(isRoot() ? ['--no-sandbox'] : []),
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
      chromiumSandbox: !isRoot(),
    },
  },
});
