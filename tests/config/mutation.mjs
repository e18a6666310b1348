import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fromRoot } from '../../server/cli/root.mjs';

const sourcesOf = (room) =>
  readdirSync(fromRoot(room))
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(room, name));

/** Files of a room in an order that the seed alone draws: a new file comes between them and moves no other. */
const drawn = (room, { seed, count }) => {
  const lot = (path) => createHash('sha256').update(`${seed} ${path}`).digest('hex');
  return sourcesOf(room)
    .toSorted((one, other) => lot(one).localeCompare(lot(other)))
    .slice(0, count)
    .toSorted();
};

/** A mutant that loops is ended after this and counts as found; far above what any test takes on a busy machine. */
const timeoutMS = 60_000;

/**
 * What is mutated, and the least share of mutants, in percent, that a test has to find in each group of files.
 * A part is one run; its groups are held to the floor one by one, so that a well-tested room excuses no other.
 */
export const mutationParts = {
  rules: {
    floor: 85,
    groups: {
      'lib/access': sourcesOf('lib/access'),
      'lib/blind': sourcesOf('lib/blind'),
      'lib/evaluation': sourcesOf('lib/evaluation'),
    },
  },
  numbers: { floor: 80, groups: { 'lib/stats': drawn('lib/stats', { seed: 'quillmarsh', count: 12 }) } },
};

/** @param {string[]} mutate files, from the root */
export const mutationSettings = (mutate) => ({
  mutate,
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/config/mutation.vitest.config.ts' },
  coverageAnalysis: 'perTest',
  concurrency: 1,
  timeoutMS,
  // Sources are copied, mutated there and removed; what no pure test reads is not copied.
  tempDirName: 'dist/mutated',
  ignorePatterns: [
    '/app',
    '/server',
    '/db',
    '/public',
    '/data',
    '/.check-long',
    '/.next',
    '/dist',
    '/tests/e2e',
    '/tests/server',
    '/tests/app',
    '/tests/faults',
    '/fixtures/demo',
  ],
  reporters: ['progress-append-only'],
  allowConsoleColors: false,
});
