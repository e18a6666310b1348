import { fullSize } from './faultSize';

/** How long it took, in milliseconds. */
export async function timed(work: () => Promise<unknown>): Promise<number> {
  const from = performance.now();
  await work();
  return performance.now() - from;
}

/**
 * Holds a time, in milliseconds, to its bound in `npm run check:long`, which is run on a machine that has nothing else to do.
 * In `npm test` a time proves nothing: a test there passes or fails by what it sees.
 */
export function holdTime(what: string, took: number, atMost: number): void {
  if (!fullSize) return;
  console.log(`${what}: ${Math.round(took)} ms of ${atMost}`);
  if (!(took <= atMost)) throw new Error(`${what} took ${Math.round(took)} ms; at most ${atMost} are allowed`);
}
