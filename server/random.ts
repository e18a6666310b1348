import { createHash, randomBytes } from 'node:crypto';

/** Where ids and secrets come from; tests inject a seeded one. */
export type Random = {
  /** A fresh id: 32 hex digits. */
  readonly id: () => string;
  /** A fresh secret: 256 bits, base64url, for links and cookies. */
  readonly token: () => string;
};

export const systemRandom: Random = {
  id: () => randomBytes(16).toString('hex'),
  token: () => randomBytes(32).toString('base64url'),
};

/** What is kept of a secret. A plain hash is enough: the secret has 256 random bits. */
export function hashToken(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
