import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Milliseconds. A net for what hangs, never a bound on how long a test takes. */
const hangs = 900_000;

/**
 * The tests of pure rooms alone, on plain sources: mutants are planted in those, and nothing here opens a file or a socket.
 * Each file of tests keeps its modules to itself, so that a mutant of what a module does while it is loaded is met.
 */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['tests/lib/{access,blind,evaluation,stats}/**/*.test.ts'],
    setupFiles: ['tests/support/failOnConsole.ts'],
    testTimeout: hangs,
    hookTimeout: hangs,
  },
});
