type Extra = { readonly [place: string]: readonly Buffer[] };

const longs = (...numbers: readonly number[]) => {
  const bytes = Buffer.alloc(4 * numbers.length);
  numbers.forEach((number, at) => bytes.writeUInt32BE(number, 4 * at));
  return bytes;
};

/**
 * A small MP4 movie of so many seconds with one track of pictures (ISO 14496-12): ftyp, moov, mdat. `extra` puts further boxes
 * into file, moov, trak, mdia, minf, stbl or entry, and bytes behind the samples in mdat.
 */
export function mp4Bytes(seconds: number, brand = 'isom', extra: Extra = {}): Buffer {
  const more = (place: string) => extra[place] ?? [];
  const samples = Buffer.alloc(2000, 7);
  const movie = (offset: number) => {
    const header = Buffer.alloc(100);
    header.writeUInt32BE(1000, 12);
    header.writeUInt32BE(Math.round(seconds * 1000), 16);
    const track = videoTrack({ offset, size: samples.byteLength, more });
    return box('moov', box('mvhd', header), track, ...more('moov'));
  };
  const head = Buffer.concat([
    box('ftyp', Buffer.from(`${brand}\0\0\0\0${brand}`)),
    box('free', Buffer.alloc(40)),
    ...more('file'),
  ]);
  const offset = head.byteLength + movie(0).byteLength + 8;
  return Buffer.concat([head, movie(offset), box('mdat', samples, ...more('mdat'))]);
}

function videoTrack({
  offset,
  size,
  more,
}: {
  readonly offset: number;
  readonly size: number;
  readonly more: (place: string) => readonly Buffer[];
}): Buffer {
  const tables = [
    box('stts', longs(0, 0)),
    box('stsc', longs(0, 1, 1, 2, 1)),
    box('stsz', longs(0, size / 2, 2)),
    box('stco', longs(0, 1, offset)),
  ];
  const entry = box('avc1', Buffer.alloc(78), box('avcC', Buffer.alloc(8, 1)), ...more('entry'));
  const table = box('stbl', box('stsd', longs(0, 1), entry), ...tables, ...more('stbl'));
  const handler = Buffer.alloc(25);
  handler.write('vide', 8, 'latin1');
  const media = box(
    'mdia',
    box('mdhd', Buffer.alloc(24)),
    box('hdlr', handler),
    box('minf', box('vmhd', Buffer.alloc(12)), table, ...more('minf')),
    ...more('mdia'),
  );
  return box('trak', box('tkhd', Buffer.alloc(84)), media, ...more('trak'));
}

export function box(name: string, ...parts: readonly Buffer[]): Buffer {
  const body = Buffer.concat(parts);
  return Buffer.concat([longs(body.byteLength + 8), Buffer.from(name, 'latin1'), body]);
}

/** An EBML element: its id in hex, and its content. */
export function element(id: string, ...parts: readonly Buffer[]): Buffer {
  const body = Buffer.concat(parts);
  const size = Buffer.concat([
    Buffer.from([0x10 + Math.floor(body.byteLength / 2 ** 24)]),
    longs(body.byteLength).subarray(1),
  ]);
  return Buffer.concat([Buffer.from(id, 'hex'), size, body]);
}

/** A WebM head that says how long it is: EBML, endless segment, information with time scale and duration (RFC 9559); `more` follows. */
export function webmBytes(
  seconds: number,
  more: { readonly info?: readonly Buffer[]; readonly segment?: readonly Buffer[] } = {},
): Buffer {
  const duration = Buffer.alloc(8);
  duration.writeDoubleBE(seconds * 1000, 0);
  const info = element(
    '1549a966',
    Buffer.from([0x2a, 0xd7, 0xb1, 0x83, 0x0f, 0x42, 0x40, 0x44, 0x89, 0x88]),
    duration,
    ...(more.info ?? []),
  );
  return Buffer.concat([
    Buffer.from([0x1a, 0x45, 0xdf, 0xa3, 0x80, 0x18, 0x53, 0x80, 0x67, 0x01, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff]),
    info,
    ...(more.segment ?? []),
    Buffer.alloc(200),
  ]);
}
