import { scryptSync } from 'node:crypto';
import { scrypt } from '@noble/hashes/scrypt.js';
import { expect, it } from 'vitest';
import { keepPassphrase, matchesPassphrase } from '#server/passphrase';

const salt = '000102030405060708090a0b0c0d0e0f';

/** RFC 7914, section 12, third vector. */
it('BL9: the scrypt that keeps passphrases is that of RFC 7914', () => {
  const key = scryptSync('pleaseletmein', 'SodiumChloride', 64, { N: 16384, r: 8, p: 1, maxmem: 2 ** 26 });
  expect(key.toString('hex')).toBe(
    '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887',
  );
});

it('BL9: a passphrase is kept with N = 2^17, r = 8, p = 1, as another implementation makes it', async () => {
  const kept = await keepPassphrase('grau über fünf Hügel', salt);
  const other = scrypt('grau über fünf Hügel'.normalize('NFKC'), Buffer.from(salt, 'hex'), {
    N: 2 ** 17,
    r: 8,
    p: 1,
    dkLen: 32,
  });
  expect(kept).toBe(`scrypt$131072$8$1$${salt}$${Buffer.from(other).toString('hex')}`);
  // The same letters as a keyboard of another make sends them: an accent of its own after the letter.
  expect(await matchesPassphrase('grau über fünf Hügel'.normalize('NFD'), kept)).toBe(true);
});
