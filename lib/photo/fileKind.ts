export type FileKind = 'jpeg' | 'png' | 'webp' | 'mp4' | 'webm' | 'heic' | 'mov' | 'markup' | 'other';

const stillBrands = new Set(['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1', 'avif', 'avis']);

/** What a file is by its first bytes, whatever it is called. Signatures as published with each format (ISO 14496-12 brands, RIFF, EBML). */
export function fileKind(bytes: Uint8Array): FileKind {
  const text = (from: number, length: number) => String.fromCharCode(...bytes.subarray(from, from + length));
  const starts = (...signature: readonly number[]) => signature.every((byte, index) => bytes[index] === byte);
  if (starts(0xff, 0xd8, 0xff)) return 'jpeg';
  if (starts(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return 'png';
  if (text(0, 4) === 'RIFF' && text(8, 4) === 'WEBP') return 'webp';
  if (starts(0x1a, 0x45, 0xdf, 0xa3)) return 'webm';
  if (text(4, 4) === 'ftyp') {
    const brand = text(8, 4);
    if (stillBrands.has(brand)) return 'heic';
    return brand === 'qt  ' ? 'mov' : 'mp4';
  }
  return /^\s*<|^\ufeff\s*</.test(new TextDecoder().decode(bytes.subarray(0, 64))) ? 'markup' : 'other';
}
