import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('../..', import.meta.url));

export default defineConfig({
  root,
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**', 'node_modules/**'],
    setupFiles: ['tests/support/failOnConsole.ts'],
    pool: 'forks',
    // Files of one worker share their modules, since importing them anew for each would be a fifth of the time; no test may replace one.
    isolate: false,
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 30_000,
  },
});
