import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { compileRooms, readCompiled } from './compiledRooms.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

export default defineConfig(async () => {
  const compiled = await compileRooms();
  return {
    root,
    plugins: [readCompiled(compiled)],
    test: {
      include: ['tests/**/*.test.ts'],
      exclude: ['tests/e2e/**', 'node_modules/**'],
      setupFiles: ['tests/support/failOnConsole.ts'],
      pool: 'forks',
      execArgv: ['--enable-source-maps'],
      env: { COMPILED_ROOMS: compiled },
      server: { deps: { external: [/\/dist\/tested\//] } },
      // Files of one worker share their modules, since importing them anew for each would be a fifth of the time; no test may replace one.
      isolate: false,
      maxWorkers: 2,
      testTimeout: 20_000,
      hookTimeout: 30_000,
    },
  };
});
