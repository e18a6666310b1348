import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readCode, spokenCode, spokenLength, spokenNameLength } from '#lib/access/spokenCode';

it('BL9: a code is two signs that name its evaluation and eight that are secret, forty bits', () => {
  expect([spokenNameLength, spokenLength, spokenCode(new Uint8Array(5)).length]).toEqual([2, 10, 8]);
});

/** RFC 4648, section 10, test vectors of base32, whose alphabet is A–Z and 2–7; the bits are cut the same way. */
it('BL9: bytes become the five-bit signs of RFC 4648, in the alphabet without I, L, O and U', () => {
  const theirs = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';
  const ours = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
  const expected = Array.from('MZXW6YTB', (sign) => ours.charAt(theirs.indexOf(sign))).join('');
  expect(spokenCode(Buffer.from('fooba'))).toBe(expected);
});

it('BL9: a code is read back however it is typed, and every code is its own', () => {
  const bytes = fc.uint8Array({ minLength: 5, maxLength: 5 });
  fc.assert(
    fc.property(bytes, bytes, fc.nat({ max: 8 }), (one, other, at) => {
      const code = spokenCode(one);
      const typed = ` ${code.slice(0, at).toLowerCase()}-${code.slice(at)} `
        .replaceAll('0', 'o')
        .replaceAll('1', at % 2 === 0 ? 'l' : 'I');
      expect(readCode(typed, 8)).toBe(code);
      expect(code === spokenCode(other)).toBe(Buffer.from(one).equals(Buffer.from(other)));
    }),
  );
});

it.each(['', 'ABCDEFG', 'ABCDEFGHJ', 'ABCDEFGU', 'ABCDEFG!', 'ÄBCDEFGH'])(
  'BL9: %j is no code of eight signs',
  (typed) => {
    expect(readCode(typed, 8)).toBeNull();
  },
);
