import { defineConfig } from '@playwright/test';
import { findChromium, isRoot } from '../support/chromium.mjs';

const executablePath = findChromium();

/**
 * One browser at a time, no second try. The tests start their own server (dist/main.js) on a free port with a data folder of
 * their own; `npm test` has built it by then.
 */
export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: 'out',
  workers: 1,
  fullyParallel: false,
  retries: 0,
  forbidOnly: true,
  timeout: 180_000,
  expect: { timeout: 10_000 },
  globalTimeout: 11 * 60_000,
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
