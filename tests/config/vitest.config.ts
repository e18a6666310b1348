import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { workersAtOnce } from '../support/workersAtOnce.mjs';
import { compileRooms, readCompiled } from './compiledRooms.mjs';

/** Milliseconds. */
const hangs = 900_000;
const root = fileURLToPath(new URL('../..', import.meta.url));

export default defineConfig(async () => {
  const compiled = await compileRooms();
  return {
    root,
    plugins: [readCompiled(compiled)],
    test: {
      include: ['tests/**/*.test.ts'],
      exclude: ['tests/e2e/**', 'node_modules/**'],
      setupFiles: ['tests/support/failOnConsole.ts', 'tests/support/waitPatiently.ts'],
      pool: 'forks',
      execArgv: ['--enable-source-maps'],
      env: { COMPILED_ROOMS: compiled },
      server: { deps: { external: [/\/dist\/tested\//] } },
      // Files of one worker share their modules, since importing them anew for each would be a fifth of the time; no test may replace one.
      isolate: false,
      maxWorkers: workersAtOnce(),
      // A net for what hangs, never a bound on how long a test takes.
      testTimeout: hangs,
      hookTimeout: hangs,
      expect: { poll: { timeout: 60_000 } },
    },
  };
});
