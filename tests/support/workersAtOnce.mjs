import { availableParallelism } from 'node:os';

/**
 * How many test workers run side by side: one for each core up to two, and half the cores beyond that up to four, since a
 * browser test keeps a server and a browser busy besides itself. `taskset` and the like are heeded.
 */
export function workersAtOnce(cores = availableParallelism()) {
  return Math.max(Math.min(cores, 2), Math.min(Math.floor(cores / 2), 4));
}
