/** The first signs of a code name its evaluation, publicly: they spend a budget of their own, so that whoever guesses elsewhere keeps nobody here waiting. */
export const spokenNameLength = 2;
/** 50 bits of signs: the name, and eight that are secret (40 random bits). */
export const spokenLength = spokenNameLength + 8;

/** The 32 signs of Crockford's base32, without I, L, O and U: what is read aloud is not misheard for another. */
const signs = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const meant: Readonly<Record<string, string>> = { O: '0', I: '1', L: '1' };

/**
 * Random bytes as signs to be spoken or written down, five bits each, first bits first; 5 bytes are 8 signs, 15 bytes are 24.
 * Source: D. Crockford, Base 32 (crockford.com/base32).
 *
 * @param bytes a multiple of five, so that no bit is left over
 */
export function spokenCode(bytes: Uint8Array): string {
  let bits = 0n;
  for (const byte of bytes) bits = (bits << 8n) | BigInt(byte);
  const length = (bytes.length * 8) / 5;
  return Array.from({ length }, (_, at) => signs.charAt(Number((bits >> BigInt(5 * (length - 1 - at))) & 31n))).join(
    '',
  );
}

/**
 * What a typed code means: small letters, blanks and hyphens as they come, O for 0, I and L for 1. Null when it is no code
 * of that many signs.
 */
export function readCode(typed: string, length: number): string | null {
  const read = Array.from(typed.toUpperCase().replace(/[\s-]/g, ''), (sign) => meant[sign] ?? sign).join('');
  return read.length === length && Array.from(read).every((sign) => signs.includes(sign)) ? read : null;
}
