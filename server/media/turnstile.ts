import { DomainError } from '#lib/errors';

export type Turnstile = <T>(work: () => Promise<T>) => Promise<T>;

/** Runs one work after the other and lets at most `waiting` wait. Throws busy: a device tries again by itself. */
export function createTurnstile(waiting: number): Turnstile {
  let inside = 0;
  let last: Promise<unknown> = Promise.resolve();
  return async (work) => {
    if (inside > waiting) throw new DomainError('busy');
    inside += 1;
    const mine = last.then(work, work);
    last = mine.catch(() => undefined);
    try {
      return await mine;
    } finally {
      inside -= 1;
    }
  };
}
