import { describe, expect, it } from 'vitest';
import { clipSeconds } from '#lib/photo/photoFile';
import { stripMp4 } from '#lib/photo/stripMp4';
import { stripWebm } from '#lib/photo/stripWebm';
import { box, element, mp4Bytes, webmBytes } from '#tests/support/clipBytes';

const canary = Buffer.from('+57.1234-002.9876/ Quillphone 9');
const text = (bytes: Buffer) => bytes.toString('latin1');
const nothing = Buffer.alloc(4);
const apple = '\u00a9xyz';

/** Apple’s and Google’s place, 3GPP’s location, iTunes lists, XMP, Exif, cameras’ own, text within free room. */
const kept: [string, Buffer][] = [
  ['udta ©xyz', box('udta', box(apple, canary))],
  ['udta loci', box('udta', box('loci', nothing, canary))],
  ['udta with a closing zero', box('udta', box('\u00a9mod', canary), nothing)],
  [
    'meta with keys and list',
    box('meta', nothing, box('hdlr', Buffer.alloc(24)), box('keys', canary), box('ilst', box('data', canary))),
  ],
  ['meta of the older form', box('meta', box('hdlr', Buffer.alloc(24)), box('xml ', canary))],
  ['uuid with XMP', box('uuid', Buffer.alloc(16, 0xbe), canary)],
  ['free', box('free', canary)],
  ['skip', box('skip', canary)],
  ['wide', box('wide', canary)],
  ['a maker’s own', box('GPMF', canary)],
  ['Exif', box('Exif', canary)],
  ['thmb', box('thmb', canary)],
  [
    'of 64 bits',
    Buffer.concat([
      Buffer.from([0, 0, 0, 1]),
      Buffer.from('udta'),
      Buffer.from([0, 0, 0, 0, 0, 0, 0, 16 + canary.byteLength]),
      canary,
    ]),
  ],
];
const places = ['file', 'moov', 'trak', 'mdia', 'minf', 'stbl', 'entry'] as const;

describe.each(places)('a canary in %s', (place) => {
  it.each(kept)('BL1: goes from %s, and every byte of the pictures stays where it was', (_, extra) => {
    const before = mp4Bytes(3, 'isom', { [place]: [extra] });
    const bytes = Buffer.from(before);
    expect(text(bytes)).toContain(text(canary));
    stripMp4(bytes);
    expect(text(bytes)).not.toContain('57.1234');
    expect(text(bytes)).not.toContain('Quillphone');
    expect(bytes.byteLength).toBe(before.byteLength);
    const samples = before.indexOf(Buffer.alloc(2000, 7));
    expect(bytes.indexOf(Buffer.alloc(2000, 7))).toBe(samples);
    expect(clipSeconds(bytes, 'mp4')).toBe(3);
    const again = Buffer.from(bytes);
    stripMp4(again);
    expect(again.equals(bytes)).toBe(true);
  });
});

it('BL1: a track of places goes with its samples, what lies between samples too; dates, handler and encoder names are emptied', () => {
  const handler = Buffer.concat([Buffer.alloc(8), Buffer.from('meta'), Buffer.alloc(12), canary]);
  const track = box(
    'trak',
    box('tkhd', Buffer.alloc(84)),
    box('mdia', box('hdlr', handler), box('minf', box('stbl', box('stsd', nothing, canary)))),
  );
  const bytes = mp4Bytes(3, 'isom', { moov: [track], mdat: [canary] });
  const named = bytes.indexOf('vide');
  bytes.writeUInt32BE(0xe0e0e0e0, bytes.indexOf('mvhd') + 8);
  bytes.write('Quillcam', bytes.indexOf('avc1') + 4 + 43, 'latin1');
  stripMp4(bytes);
  expect(text(bytes)).not.toMatch(/57\.1234|Quillphone|Quillcam/);
  expect(bytes.indexOf(Buffer.from('e0e0e0e0', 'hex'))).toBe(-1);
  expect(bytes.indexOf('vide')).toBe(named);
  expect(bytes.includes(Buffer.alloc(2000, 7))).toBe(true);
});

it('a movie whose boxes cannot be followed is refused', () => {
  const broken = mp4Bytes(3);
  broken.writeUInt32BE(3, broken.indexOf('trak') - 4);
  expect(() => stripMp4(broken)).toThrow('file-unreadable');
  expect(() => stripMp4(box('ftyp', Buffer.from('isom\0\0\0\0')))).toThrow('file-unreadable');
});

const block = (track: number, content: Buffer) => element('a3', Buffer.from([0x80 + track, 0, 0, 0x80]), content);
const entry = (number: number, kind: number, ...more: readonly Buffer[]) =>
  element(
    'ae',
    element('d7', Buffer.from([number])),
    element('83', Buffer.from([kind])),
    element('86', Buffer.from('V_VP8')),
    ...more,
  );
const pictures = Buffer.alloc(300, 9);

const inWebm: [string, Parameters<typeof webmBytes>[1]][] = [
  [
    'tags',
    {
      segment: [
        element(
          '1254c367',
          element('7373', element('67c8', element('45a3', Buffer.from('LOCATION')), element('4487', canary))),
        ),
      ],
    },
  ],
  ['attachments', { segment: [element('1941a469', element('61a7', element('465c', canary)))] }],
  ['chapters', { segment: [element('1043a770', canary)] }],
  ['Void', { segment: [element('ec', canary)] }],
  ['something unknown', { segment: [element('6b6b', canary)] }],
  ['the title', { info: [element('7ba9', canary)] }],
  ['the writing program', { info: [element('5741', canary)] }],
  ['the muxing program', { info: [element('4d80', canary)] }],
  ['the file’s name', { info: [element('7384', canary)] }],
  ['a track’s name', { segment: [element('1654ae6b', entry(1, 1, element('536e', canary)))] }],
  ['a short element', { segment: [element('1654ae6b', entry(1, 1, element('258688', canary)))] }],
  [
    'a track of text',
    {
      segment: [
        element('1654ae6b', entry(1, 1), entry(2, 0x11)),
        element('1f43b675', element('e7', Buffer.from([0])), block(2, canary)),
      ],
    },
  ],
  [
    'a group of a track of text',
    {
      segment: [
        element('1654ae6b', entry(2, 0x21)),
        element('1f43b675', element('a0', element('a1', Buffer.from([0x82, 0, 0, 0]), canary))),
      ],
    },
  ],
  [
    'what is added to a block',
    {
      segment: [
        element('1654ae6b', entry(1, 1)),
        element('1f43b675', element('a0', element('a1', Buffer.from([0x81, 0, 0, 0])), element('75a1', canary))),
      ],
    },
  ],
];

it.each(inWebm)('BL1: a WebM clip keeps no canary in %s; its pictures stay where they were', (_, more = {}) => {
  const before = webmBytes(3, {
    ...more,
    segment: [...(more.segment ?? []), element('1f43b675', element('e7', Buffer.from([0])), block(1, pictures))],
  });
  const bytes = Buffer.from(before);
  expect(text(bytes)).toContain(text(canary));
  stripWebm(bytes);
  expect(text(bytes)).not.toMatch(/57\.1234|Quillphone/);
  expect([bytes.byteLength, bytes.indexOf(pictures), clipSeconds(bytes, 'webm')]).toEqual([
    before.byteLength,
    before.indexOf(pictures),
    3,
  ]);
  const again = Buffer.from(bytes);
  stripWebm(again);
  expect(again.equals(bytes)).toBe(true);
});

it('BL1: the date of recording and elements of every length leave a WebM whose parts still follow each other', () => {
  for (let length = 0; length < 300; length += 1) {
    const bytes = webmBytes(3, {
      info: [element('4461', Buffer.alloc(length, 0x51))],
      segment: [element('1f43b675', block(1, pictures))],
    });
    stripWebm(bytes);
    stripWebm(bytes);
    expect([bytes.includes(Buffer.alloc(2, 0x51)), bytes.includes(pictures)]).toEqual([false, true]);
  }
  expect(() => stripWebm(Buffer.from([0x1a, 0x45, 0xdf, 0xa3, 0x80, 0xec, 0xff]))).toThrow('file-unreadable');
});
