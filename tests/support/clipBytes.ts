/** The shortest file that says it is an MP4 movie of so many seconds (ISO 14496-12: ftyp, and moov with a movie header). */
export function mp4Bytes(seconds: number, brand = 'isom'): Buffer {
  const header = Buffer.alloc(100);
  header.writeUInt32BE(1000, 12);
  header.writeUInt32BE(Math.round(seconds * 1000), 16);
  return Buffer.concat([box('ftyp', Buffer.from(`${brand}\0\0\0\0${brand}`)), box('free', Buffer.alloc(40)), box('moov', box('mvhd', header)), box('mdat', Buffer.alloc(2000, 7))]);
}

function box(name: string, body: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(body.byteLength + 8, 0);
  head.write(name, 4, 'latin1');
  return Buffer.concat([head, body]);
}

/** A WebM head that says how long it is: EBML, segment, information with time scale and duration (RFC 9559). */
export function webmBytes(seconds: number): Buffer {
  const duration = Buffer.alloc(8);
  duration.writeDoubleBE(seconds * 1000, 0);
  const info = Buffer.concat([Buffer.from([0x2a, 0xd7, 0xb1, 0x83, 0x0f, 0x42, 0x40, 0x44, 0x89, 0x88]), duration]);
  return Buffer.concat([Buffer.from([0x1a, 0x45, 0xdf, 0xa3, 0x80, 0x18, 0x53, 0x80, 0x67, 0x01, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff]), Buffer.from([0x15, 0x49, 0xa9, 0x66, 0x80 + info.byteLength]), info, Buffer.alloc(200)]);
}
