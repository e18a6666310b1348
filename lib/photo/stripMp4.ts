import { DomainError } from '../errors';

/**
 * What an MP4 needs to be played, by the box it stands in (ISO 14496-12); whatever is not here says who, where, when or with
 * what: user data and metadata under any parent (place, maker, model, XMP), `uuid` boxes, application boxes, text.
 */
const needed: Readonly<Record<string, readonly string[]>> = {
  file: ['ftyp', 'styp', 'moov', 'mdat', 'moof', 'mfra', 'sidx', 'ssix'],
  moov: ['mvhd', 'trak', 'mvex'],
  mvex: ['mehd', 'trex', 'leva'],
  trak: ['tkhd', 'edts', 'mdia', 'tref'],
  edts: ['elst'],
  mdia: ['mdhd', 'hdlr', 'minf', 'elng'],
  minf: ['vmhd', 'smhd', 'dinf', 'stbl'],
  dinf: ['dref'],
  stbl: [
    'stsd',
    'stts',
    'ctts',
    'cslg',
    'stsc',
    'stsz',
    'stz2',
    'stco',
    'co64',
    'stss',
    'stsh',
    'sdtp',
    'sbgp',
    'sgpd',
    'subs',
    'saiz',
    'saio',
  ],
  moof: ['mfhd', 'traf'],
  traf: ['tfhd', 'tfdt', 'trun', 'sdtp', 'sbgp', 'sgpd', 'subs', 'saiz', 'saio'],
  mfra: ['tfra', 'mfro'],
  /** In a sample's description: how to decode it and how to show it. */
  entry: [
    'avcC',
    'hvcC',
    'vvcC',
    'vpcC',
    'av1C',
    'esds',
    'dOps',
    'dac3',
    'dec3',
    'dfLa',
    'colr',
    'pasp',
    'clap',
    'btrt',
    'mdcv',
    'clli',
    'smDm',
    'coLL',
    'fiel',
    'chan',
    'chnl',
    'srat',
  ],
};

/** Codecs whose size tables count bytes, so that what no sample covers can be told from what one does. */
const counted = new Set([
  'avc1',
  'avc3',
  'hvc1',
  'hev1',
  'vp08',
  'vp09',
  'av01',
  'mp4v',
  'mp4a',
  'Opus',
  'ac-3',
  'ec-3',
  'fLaC',
]);
const dated = new Set(['mvhd', 'tkhd', 'mdhd']);
/** Bytes before the boxes inside a sample description of pictures and of sound (8.5.2, 12.1.3, 12.2.3). */
const visualHead = 78;
const soundHead = 28;

type Box = { readonly kind: string; readonly at: number; readonly body: number; readonly end: number };
type Stretch = { readonly from: number; readonly to: number };
type Film = {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  /** Where samples of pictures and of sound lie. */
  readonly kept: Stretch[];
  countable: boolean;
  /** A track that was neither has gone. */
  foreign: boolean;
};

const unreadable = () => new DomainError('file-unreadable');

/**
 * Takes out of an MP4, in place and at the same length, whatever it holds besides pictures and sound and what playing them
 * needs: such boxes become `free` ones full of zeros, so that every offset still fits. Tracks that are neither go with their
 * samples, and so does whatever lies between the samples. What an encoder wrote into the pictures' own coded stream stays.
 * Throws file-unreadable where the boxes cannot be followed.
 */
export function stripMp4(bytes: Uint8Array): void {
  const film: Film = {
    bytes,
    view: new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength),
    kept: [],
    countable: true,
    foreign: false,
  };
  const boxes = boxesIn(film, { from: 0, to: bytes.byteLength });
  if (!boxes.some(({ kind }) => kind === 'moov')) throw unreadable();
  clean(film, boxes, 'file');
  const whole = film.countable && !boxes.some(({ kind }) => kind === 'moof');
  // Where samples are told fragment by fragment, those of a track that went cannot be told from the others.
  if (film.foreign && !whole) throw unreadable();
  if (whole) for (const { kind, body, end } of boxes) if (kind === 'mdat') zeroOutside(film, { from: body, to: end });
}

function clean(film: Film, boxes: readonly Box[], parent: string): void {
  const { bytes } = film;
  for (const box of boxes) {
    const { kind, body, end } = box;
    if (!needed[parent]?.includes(kind)) free(film, box);
    else if (kind === 'trak') cleanTrack(film, box);
    // What the maker calls the handler; the kind before it stays.
    else if (kind === 'hdlr') bytes.fill(0, Math.min(end, body + 24), end);
    else if (dated.has(kind))
      bytes.fill(0, Math.min(end, body + 4), Math.min(end, body + (bytes[body] === 1 ? 20 : 12)));
    else if (kind !== 'stsd' && needed[kind]) clean(film, boxesIn(film, { from: body, to: end }), kind);
  }
}

function cleanTrack(film: Film, track: Box): void {
  const handler = find(film, track, ['mdia', 'hdlr']);
  const kind = handler && handler.body + 12 <= handler.end ? nameAt(film, handler.body + 8) : '';
  if (kind !== 'vide' && kind !== 'soun') {
    film.foreign = true;
    free(film, track);
    return;
  }
  clean(film, boxesIn(film, { from: track.body, to: track.end }), 'trak');
  const table = find(film, track, ['mdia', 'minf', 'stbl']);
  if (!table) return;
  for (const entry of boxesBehind(film, find(film, table, ['stsd']), 8)) cleanDescription(film, entry, kind);
  film.kept.push(...samplesOf(film, table));
}

function cleanDescription(film: Film, { kind, body, end }: Box, track: 'vide' | 'soun'): void {
  if (!counted.has(kind)) film.countable = false;
  // The encoder's name often is a camera's (12.1.3: 32 bytes).
  if (track === 'vide') film.bytes.fill(0, Math.min(end, body + 42), Math.min(end, body + 74));
  const version = track === 'soun' && body + 10 <= end ? film.view.getUint16(body + 8) : 0;
  const from = body + (track === 'vide' ? visualHead : soundHead + (version === 1 ? 16 : version === 2 ? 36 : 0));
  if (from < end) clean(film, boxesIn(film, { from, to: end }), 'entry');
}

/** Each chunk's samples are one stretch (8.7: sizes, samples to a chunk, offsets of chunks). */
function samplesOf(film: Film, table: Box): Stretch[] {
  const sizes = sizesOf(film, table);
  const runs = numbersIn(film, find(film, table, ['stsc']), { head: 8, width: 4 });
  const [short, long] = [find(film, table, ['stco']), find(film, table, ['co64'])];
  const offsets = long ? numbersIn(film, long, { head: 8, width: 8 }) : numbersIn(film, short, { head: 8, width: 4 });
  const stretches: Stretch[] = [];
  let run = 0;
  let sample = 0;
  offsets.forEach((from, chunk) => {
    while ((runs[3 * (run + 1)] ?? Number.POSITIVE_INFINITY) <= chunk + 1) run += 1;
    const last = sample + (runs[3 * run + 1] ?? 0);
    let to = from;
    for (; sample < last; sample += 1) to += sizes(sample);
    stretches.push({ from, to });
  });
  return stretches;
}

function sizesOf(film: Film, table: Box): (sample: number) => number {
  const box = find(film, table, ['stsz']);
  // Sizes of four or eight bits are not read here: then what is between samples cannot be told.
  if (!box || box.body + 12 > box.end) {
    film.countable = false;
    return () => 0;
  }
  const same = film.view.getUint32(box.body + 4);
  const each = same === 0 ? numbersIn(film, box, { head: 12, width: 4 }) : [];
  return (sample) => (same === 0 ? (each[sample] ?? 0) : same);
}

function numbersIn(
  { view }: Film,
  box: Box | null,
  { head, width }: { readonly head: number; readonly width: 4 | 8 },
): number[] {
  if (!box) return [];
  const numbers: number[] = [];
  for (let at = box.body + head; at + width <= box.end; at += width)
    numbers.push(width === 4 ? view.getUint32(at) : Number(view.getBigUint64(at)));
  return numbers;
}

function zeroOutside({ bytes, kept }: Film, { from, to }: Stretch): void {
  let at = from;
  for (const stretch of kept.toSorted((a, b) => a.from - b.from)) {
    if (stretch.from > at) bytes.fill(0, at, Math.min(to, stretch.from));
    at = Math.max(at, Math.min(to, stretch.to));
  }
  bytes.fill(0, at, to);
}

/** Its length stays, so that nothing behind it moves. */
function free({ bytes }: Film, { at, body, end }: Box): void {
  bytes.set([0x66, 0x72, 0x65, 0x65], at + 4);
  bytes.fill(0, body, end);
}

function find(film: Film, box: Box, [next, ...rest]: readonly string[]): Box | null {
  if (next === undefined) return box;
  const inside = boxesIn(film, { from: box.body, to: box.end }).find(({ kind }) => kind === next);
  return inside ? find(film, inside, rest) : null;
}

const boxesBehind = (film: Film, box: Box | null, head: number) =>
  box ? boxesIn(film, { from: box.body + head, to: box.end }) : [];

/** Boxes side by side. What is too short to be one at the end is set to zero: some writers close a list with four zeros. */
function boxesIn(film: Film, { from, to }: Stretch): Box[] {
  const { view, bytes } = film;
  const boxes: Box[] = [];
  let at = from;
  while (at + 8 <= to) {
    const short = view.getUint32(at);
    const long = short === 1 && at + 16 <= to;
    const size = long ? Number(view.getBigUint64(at + 8)) : short === 0 ? to - at : short;
    const outermost = to === bytes.byteLength && from === 0;
    // Only the last box of a file that was cut short may reach beyond.
    if (size < (long ? 16 : 8) || (at + size > to && !outermost)) throw unreadable();
    boxes.push({ kind: nameAt(film, at + 4), at, body: at + (long ? 16 : 8), end: Math.min(to, at + size) });
    at += size;
  }
  if (at < to) bytes.fill(0, at, to);
  return boxes;
}

function nameAt({ bytes }: Film, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}
