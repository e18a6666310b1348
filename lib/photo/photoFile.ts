type FileKind = 'jpeg' | 'png' | 'webp' | 'mp4' | 'webm' | 'heic' | 'mov' | 'markup' | 'other';

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

/** What may be sent. Megabytes are 1,000,000 bytes. */
export const photoLimits = {
  pictureBytes: 20_000_000 - 1,
  pixels: 50_000_000,
  clipBytes: 60_000_000,
  clipSeconds: 30,
  /** A clip that was stopped at 30 seconds may be a little over. */
  clipGrace: 1,
  perEvaluation: 600,
  note: 120,
} as const;

/** What became of a picture or clip that was sent: its files are written, a small one only of a picture. */
export type Media = {
  readonly kind: 'picture' | 'clip';
  readonly contentType: 'image/webp' | 'video/mp4' | 'video/webm';
  readonly width: number;
  readonly height: number;
  /** At most 1 KB, as a data address; empty for a clip. */
  readonly placeholder: string;
  /** SHA-256 of the bytes as received. */
  readonly hash: string;
};

/** How long a clip is, in seconds, by its own header; null where the header does not say. */
export function clipSeconds(bytes: Uint8Array, kind: 'mp4' | 'webm'): number | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return kind === 'mp4' ? mp4Seconds(view) : webmSeconds(view);
}

/** Movie header box (ISO 14496-12, 8.2.2): time scale and duration. */
function mp4Seconds(view: DataView): number | null {
  const movie = findBox(view, { from: 0, to: view.byteLength }, 'moov');
  const header = movie && findBox(view, movie, 'mvhd');
  if (!header || header.from + 32 > view.byteLength) return null;
  const long = view.getUint8(header.from) === 1;
  const scale = view.getUint32(header.from + (long ? 20 : 12));
  const duration = long ? Number(view.getBigUint64(header.from + 24)) : view.getUint32(header.from + 16);
  return scale === 0 ? null : duration / scale;
}

type Stretch = { readonly from: number; readonly to: number };

function findBox(view: DataView, { from, to }: Stretch, name: string): Stretch | null {
  let at = from;
  while (at + 8 <= to) {
    const short = view.getUint32(at);
    const long = short === 1 && at + 16 <= to;
    const size = long ? Number(view.getBigUint64(at + 8)) : short === 0 ? to - at : short;
    if (size < 8) return null;
    const here = String.fromCharCode(...[4, 5, 6, 7].map((step) => view.getUint8(at + step)));
    if (here === name) return { from: at + (long ? 16 : 8), to: Math.min(to, at + size) };
    at += size;
  }
  return null;
}

const durationId = [0x44, 0x89] as const;
const scaleId = [0x2a, 0xd7, 0xb1] as const;
/** The information stands near the start; a browser that streams leaves the duration out. */
const headBytes = 4096;

/** Duration element of a Matroska segment (RFC 9559, 5.1.2.10), in units of the timestamp scale. */
function webmSeconds(view: DataView): number | null {
  const duration = findElement(view, durationId);
  if (!duration) return null;
  const value =
    duration.size === 8
      ? view.getFloat64(duration.at)
      : duration.size === 4
        ? view.getFloat32(duration.at)
        : Number.NaN;
  const scale = findElement(view, scaleId);
  const nanoseconds = scale ? unsigned(view, scale) : 1_000_000;
  return Number.isFinite(value) && value >= 0 ? (value * nanoseconds) / 1e9 : null;
}

function findElement(view: DataView, id: readonly number[]): { readonly at: number; readonly size: number } | null {
  const end = Math.min(headBytes, view.byteLength) - id.length - 9;
  for (let at = 0; at < end; at += 1) {
    if (!id.every((byte, index) => view.getUint8(at + index) === byte)) continue;
    const size = view.getUint8(at + id.length) - 0x80;
    if (size >= 1 && size <= 8) return { at: at + id.length + 1, size };
  }
  return null;
}

function unsigned(view: DataView, { at, size }: { readonly at: number; readonly size: number }): number {
  let value = 0;
  for (let step = 0; step < size; step += 1) value = value * 256 + view.getUint8(at + step);
  return value;
}
