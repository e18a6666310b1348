import { defineConfig } from '@playwright/test';
import { findChromium, isRoot } from '../support/chromium.mjs';

const executablePath = findChromium();

/**
 * Three files side by side, since a browser test waits more than it works, each with a server (dist/main.js), a data folder and a browser of its own; no second try. `npm test`
 * has built the app by then.
 */
export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: 'out',
  workers: 3,
  fullyParallel: false,
  retries: 0,
  forbidOnly: true,
  timeout: 180_000,
  expect: { timeout: 10_000 },
  globalTimeout: 13 * 60_000,
  use: {
    headless: true,
    locale: 'en-GB',
    trace: 'retain-on-failure',
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
