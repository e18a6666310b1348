import { readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { picturesFolder } from '#db/picturesFolder';
import { refusalText } from '#app/_data/refusalText';
import { mp4Bytes } from '#tests/support/clipBytes';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { plainPicture, sendPhoto, type Sent } from '#tests/support/sendPhoto';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

type House = {
  readonly owner: TestClient;
  readonly id: string;
  readonly send: (bytes: Uint8Array, type?: string) => Promise<Sent>;
};

async function house(server: TestServer): Promise<House> {
  const { id, owner } = await seedQuillmarsh(await server.owner(), { puppies: 2, join: false });
  const puppy = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  return {
    id,
    owner,
    send: (bytes, type) => sendPhoto(owner, { evaluation: id, puppy, bytes, ...(type ? { type } : {}) }),
  };
}

const get = (owner: TestClient, path: string, headers: Record<string, string> = {}) =>
  fetch(`${owner.url}/api/photo/${path}`, { headers: { cookie: owner.cookie(), ...headers } });

/** A PNG of 900 million pixels in a few hundred bytes; its header is sound. */
function bomb(): Buffer {
  const chunk = (name: string, body: Buffer) => {
    const head = Buffer.alloc(8);
    head.writeUInt32BE(body.byteLength, 0);
    head.write(name, 4, 'latin1');
    const check = Buffer.alloc(4);
    check.writeUInt32BE(crc32(Buffer.concat([head.subarray(4), body])), 0);
    return Buffer.concat([head, body, check]);
  };
  const header = Buffer.alloc(13);
  header.writeUInt32BE(30_000, 0);
  header.writeUInt32BE(30_000, 4);
  header.set([8, 0, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.alloc(10_000))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** CRC-32 as PNG defines it (ISO/IEC 15948, annex D). */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"><script>alert(1)</script></svg>';
const refused: readonly (readonly [string, string, () => Promise<Uint8Array> | Uint8Array])[] = [
  ['a decompression bomb', 'picture-too-big', bomb],
  [
    'a real picture of 64 megapixels',
    'picture-too-big',
    () =>
      sharp({ create: { width: 8000, height: 8000, channels: 3, background: '#888' } })
        .png({ compressionLevel: 9 })
        .toBuffer(),
  ],
  ['a vector drawing named .jpg', 'file-kind', () => Buffer.from(svg)],
  ['a vector drawing after an XML line', 'file-kind', () => Buffer.from(`<?xml version="1.0"?>\n${svg}`)],
  ['a web page named .jpg', 'file-kind', () => Buffer.from('<!doctype html><script>alert(1)</script>')],
  ['20 megabytes', 'file-too-large', async () => Buffer.concat([await plainPicture(), Buffer.alloc(20 * 1024 * 1024)])],
  ['a HEIC picture', 'file-heic', () => Buffer.from('\0\0\0\x18ftypheic\0\0\0\0heicmif1')],
  [
    'a picture cut short',
    'file-unreadable',
    async () => (await plainPicture(1, { width: 1200, height: 900 })).subarray(0, 3000),
  ],
  [
    'letters after a picture’s signature',
    'file-unreadable',
    () => Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.from('no picture at all')]),
  ],
  ['a moving GIF', 'file-kind', () => Buffer.from('GIF89a\x01\0\x01\0')],
  ['a clip of 40 seconds', 'clip-too-long', () => mp4Bytes(40)],
  ['a clip of another house’s kind', 'file-kind', () => mp4Bytes(5, 'qt  ')],
  ['nothing', 'file-kind', () => Buffer.alloc(0)],
];

it('every hostile or hopeless file is refused with a code of its own, in words that say what to do, and leaves nothing behind', async () => {
  await using server = await startTestServer();
  const { id, owner, send } = await house(server);
  await send(await plainPicture(9));
  const files = () => readdirSync(picturesFolder(server.runtime.db)).length;
  const [before, atRest] = [files(), process.memoryUsage.rss()];
  let most = 0;
  for (const [what, code, make] of refused) {
    const sent = await send(await make());
    most = Math.max(most, process.memoryUsage.rss());
    expect([what, sent.code]).toEqual([what, code]);
    expect(sent.status).toBeGreaterThanOrEqual(400);
    expect(sent.status).toBeLessThan(500);
    const words = refusalText({ data: { code } });
    expect([code, /(Send|share|Make|Cut|save it anew)/.test(words)]).toEqual([code, true]);
  }
  expect(files()).toBe(before);
  expect((await owner.api.photo.list.query({ id })).photos).toHaveLength(1);
  expect(server.logged).toEqual([]);
  expect((most - atRest) / 1e6).toBeLessThan(150);
});

it.each(['jpeg', 'png', 'webp'] as const)(
  'a %s that tells place and device comes out upright and clean',
  async (format) => {
    await using server = await startTestServer();
    const { owner, id, send } = await house(server);
    const told = {
      IFD0: { Make: 'quince-camera', Software: 'quince' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 3230/100',
        GPSLongitudeRef: 'W',
        GPSLongitude: '0/1 7/1 4366/100',
      },
    };
    // Lying on its side: the camera was held upright and said so (orientation 6).
    const original = await sharp({ create: { width: 3000, height: 2000, channels: 3, background: '#7a5' } })
      .withExif(told)
      .withMetadata({ orientation: 6 })
      .toFormat(format)
      .toBuffer();
    const told2 = await sharp(original).metadata();
    expect([told2.orientation, (told2.exif?.byteLength ?? 0) > 100]).toEqual([6, true]);
    const { id: photo } = await send(original);
    for (const size of ['large', 'small']) {
      const answer = await get(owner, `${photo}/${size}`);
      const bytes = Buffer.from(await answer.arrayBuffer());
      const { width = 0, height = 0, exif, xmp, iptc, format: written } = await sharp(bytes).metadata();
      expect([exif, xmp, iptc, written]).toEqual([undefined, undefined, undefined, 'webp']);
      expect(height / width).toBeCloseTo(1.5, 2);
      expect(Math.max(width, height)).toBe(size === 'large' ? 1600 : 320);
      expect(bytes.includes('quince')).toBe(false);
      expect([
        answer.headers.get('content-type'),
        answer.headers.get('x-content-type-options'),
        answer.headers.get('cross-origin-resource-policy'),
      ]).toEqual(['image/webp', 'nosniff', 'same-origin']);
      expect(answer.headers.get('content-disposition')).toBe('inline; filename="picture.webp"');
      expect(answer.headers.get('cache-control')).toMatch(/^private/);
    }
    const [face] = (await owner.api.photo.list.query({ id })).photos;
    expect([face?.width, face?.height, (face?.placeholder.length ?? 9999) <= 1024]).toEqual([1067, 1600, true]);
  },
);

it('BL5: picture files carry mode 0600 and names that tell nothing', async () => {
  await using server = await startTestServer();
  const { owner, id, send } = await house(server);
  await send(await plainPicture());
  const folder = picturesFolder(server.runtime.db);
  const names = readdirSync(folder);
  expect(names).toHaveLength(2);
  const [face] = (await owner.api.photo.list.query({ id })).photos;
  for (const name of names) {
    expect(name).toMatch(/^[0-9a-f]{32}$/);
    expect([face?.id, face?.puppyId]).not.toContain(name);
    expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600);
  }
  expect(statSync(folder).mode & 0o777).toBe(0o700);
});

it('SC2: the same picture sent twice, under its id or its bytes, is one; a removed one is gone with its files', async () => {
  await using server = await startTestServer();
  const { owner, id, send } = await house(server);
  const puppy = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const bytes = await plainPicture(3);
  const first = await send(bytes);
  const again = await sendPhoto(owner, { evaluation: id, puppy, bytes: await plainPicture(4), id: first.id ?? '' });
  const sameBytes = await send(bytes);
  expect([again.id, sameBytes.id]).toEqual([first.id, first.id]);
  expect((await owner.api.photo.list.query({ id })).photos).toHaveLength(1);
  await owner.api.photo.remove.mutate({ id, photoId: first.id ?? '' });
  expect((await get(owner, `${first.id}/large`)).status).toBe(404);
  expect(readdirSync(picturesFolder(server.runtime.db))).toEqual([]);
  expect((await send(bytes)).id).not.toBe(first.id);
});

it('clips are kept as they are and answer ranges (RFC 9110, 14)', async () => {
  await using server = await startTestServer();
  const { owner, send } = await house(server);
  const bytes = mp4Bytes(12);
  const { id } = await send(bytes, 'video/mp4');
  const whole = await get(owner, `${id}/large`);
  expect([whole.status, whole.headers.get('accept-ranges'), whole.headers.get('content-type')]).toEqual([
    200,
    'bytes',
    'video/mp4',
  ]);
  expect(Buffer.from(await whole.arrayBuffer()).equals(bytes)).toBe(true);
  for (const [range, from, to] of [
    ['bytes=0-99', 0, 99],
    ['bytes=100-', 100, bytes.byteLength - 1],
    ['bytes=-50', bytes.byteLength - 50, bytes.byteLength - 1],
  ] as const) {
    const part = await get(owner, `${id}/large`, { range });
    expect([part.status, part.headers.get('content-range')]).toEqual([206, `bytes ${from}-${to}/${bytes.byteLength}`]);
    expect(Buffer.from(await part.arrayBuffer()).equals(bytes.subarray(from, to + 1))).toBe(true);
  }
  expect((await get(owner, `${id}/large`, { range: 'bytes=999999-' })).status).toBe(416);
  expect(
    readFileSync(
      join(picturesFolder(server.runtime.db), readdirSync(picturesFolder(server.runtime.db))[0] ?? ''),
    ).equals(bytes),
  ).toBe(true);
});

it('SC1: what the disk refuses is answered, not cut off, while the picture is still on its way', async () => {
  await using server = await startTestServer();
  const { send } = await house(server);
  const folder = picturesFolder(server.runtime.db);
  writeFileSync(folder, 'no folder');
  const grain = await sharp({
    create: {
      width: 2000,
      height: 1500,
      channels: 3,
      background: '#000',
      noise: { type: 'gaussian', mean: 120, sigma: 40 },
    },
  })
    .png()
    .toBuffer();
  expect(grain.byteLength).toBeGreaterThan(4_000_000);
  expect(await send(grain)).toMatchObject({ status: 500, code: 'unknown' });
  rmSync(folder);
  expect((await send(grain)).status).toBe(200);
});
