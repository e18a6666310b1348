import { scrypt, timingSafeEqual } from 'node:crypto';

/**
 * scrypt as in RFC 7914 with N = 2^17, r = 8, p = 1: 128 MiB and a good part of a second a guess (the OWASP Password Storage
 * Cheat Sheet's first choice of parameters). Node computes it on a thread of its own, so that the server's loop goes on.
 */
const cost = { N: 2 ** 17, r: 8, p: 1, maxmem: 2 ** 28 };
const keyLength = 32;
/** Typed alike on every keyboard: compatibility forms and combining accents are made one. */
const asTyped = (typed: string) => typed.normalize('NFKC');

/** A passphrase as it is kept: parameters, salt and key, so that a later version may use others. `salt` in hex, fresh for each. */
export async function keepPassphrase(typed: string, salt: string): Promise<string> {
  const key = await derive(typed, salt);
  return ['scrypt', cost.N, cost.r, cost.p, salt, key.toString('hex')].join('$');
}

/** Whether this is the passphrase that was kept. */
export async function matchesPassphrase(typed: string, kept: string): Promise<boolean> {
  const [, , , , salt = '', key = ''] = kept.split('$');
  return timingSafeEqual(await derive(typed, salt), Buffer.from(key, 'hex'));
}

function derive(typed: string, salt: string): Promise<Buffer> {
  return new Promise((resolve, reject) =>
    scrypt(asTyped(typed), Buffer.from(salt, 'hex'), keyLength, cost, (error, key) =>
      error ? reject(error) : resolve(key),
    ),
  );
}
