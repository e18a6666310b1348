import { createHash } from 'node:crypto';
import type { Random } from '#server/random';

/** Ids and secrets that are the same in every run with the same seed. */
export function seededIds(seed: string): Random {
  let drawn = 0;
  const next = () => createHash('sha256').update(`${seed} ${(drawn += 1)}`);
  return { id: () => next().digest('hex').slice(0, 32), token: () => next().digest('base64url') };
}
