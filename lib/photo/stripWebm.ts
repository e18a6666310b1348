import { DomainError } from '../errors';

/** Elements that hold others, by id (RFC 9559): stepped into, whether they say how long they are or not. */
const masters = new Set([
  0x1a45dfa3, 0x18538067, 0x1549a966, 0x1654ae6b, 0xae, 0xe0, 0xe1, 0x55b0, 0x55d0, 0x1f43b675, 0xa0,
]);
/** What playing needs: of the head, the information, tracks (numbers, codecs, sizes, colours), cues and blocks. Whatever else there is says who, where, when or with what. */
const needed = new Set([
  0x4286, 0x42f7, 0x42f2, 0x42f3, 0x4282, 0x4287, 0x4285, 0x114d9b74, 0x1c53bb6b, 0x2ad7b1, 0x4489, 0xd7, 0x73c5, 0x83,
  0xb9, 0x88, 0x55aa, 0x9c, 0x6de7, 0x6df8, 0x23e383, 0x55ee, 0x22b59c, 0x86, 0x63a2, 0xaa, 0x56aa, 0x56bb, 0x9a, 0x9d,
  0x53b8, 0x53c0, 0xb0, 0xba, 0x54aa, 0x54bb, 0x54cc, 0x54dd, 0x54b0, 0x54ba, 0x54b2, 0x55b1, 0x55b2, 0x55b3, 0x55b4,
  0x55b5, 0x55b6, 0x55b7, 0x55b8, 0x55b9, 0x55ba, 0x55bb, 0x55bc, 0x55bd, 0x55d1, 0x55d2, 0x55d3, 0x55d4, 0x55d5,
  0x55d6, 0x55d7, 0x55d8, 0x55d9, 0x55da, 0xb5, 0x78b5, 0x9f, 0x6264, 0xe7, 0xa7, 0xab, 0xa3, 0xa1, 0x9b, 0xfb, 0x75a2,
]);
/** The writing programs' names must be there and may be empty. */
const emptied = new Set([0x4d80, 0x5741]);
const [trackEntry, trackNumber, trackKind, simpleBlock, blockGroup, block] = [0xae, 0xd7, 0x83, 0xa3, 0xa0, 0xa1];
const voidId = 0xec;

type Element = {
  readonly id: number;
  readonly at: number;
  readonly body: number;
  readonly end: number;
  readonly endless: boolean;
};

const unreadable = () => new DomainError('file-unreadable');

/**
 * Takes out of a WebM, in place and at the same length, whatever it holds besides pictures and sound and what playing them
 * needs: tags, attachments, chapters, titles, dates, names become Void elements full of zeros. Tracks that are neither go with
 * their blocks. Throws file-unreadable where the elements cannot be followed.
 */
export function stripWebm(bytes: Uint8Array): void {
  const gone = new Set<number>();
  let at = 0;
  while (at < bytes.byteLength) {
    // Nothing, written out: some writers leave room behind.
    if (bytes[at] === 0) {
      at += 1;
      continue;
    }
    const element = elementAt(bytes, at);
    at = element.end;
    if (isForeign(bytes, element, gone)) erase(bytes, element);
    else if (masters.has(element.id)) at = element.body;
    else if (emptied.has(element.id)) bytes.fill(0, element.body, element.end);
    else if (!needed.has(element.id)) erase(bytes, element);
  }
}

/** A track of neither pictures nor sound, or a block of one; remembers the track's number. */
function isForeign(bytes: Uint8Array, element: Element, gone: Set<number>): boolean {
  if (element.id === trackEntry) {
    const inside = elementsIn(bytes, element);
    const number = (id: number) => {
      const found = inside.find((one) => one.id === id);
      return found ? unsigned(bytes, found) : 0;
    };
    const kind = number(trackKind);
    if (kind !== 1 && kind !== 2) gone.add(number(trackNumber));
    return kind !== 1 && kind !== 2;
  }
  if (element.id === simpleBlock) return gone.has(vintAt(bytes, element.body).value);
  const first = element.id === blockGroup ? elementsIn(bytes, element).find(({ id }) => id === block) : undefined;
  return first !== undefined && gone.has(vintAt(bytes, first.body).value);
}

function elementsIn(bytes: Uint8Array, { body, end }: Element): Element[] {
  const elements: Element[] = [];
  for (let at = body; at < end; ) {
    const element = elementAt(bytes, at);
    elements.push(element);
    at = element.end;
  }
  return elements;
}

/** Its length stays: a Void's own length is written as long as it takes. */
function erase(bytes: Uint8Array, { at, end, endless }: Element): void {
  const whole = end - at;
  if (endless || whole < 2) throw unreadable();
  const wide = whole > 9 ? 8 : 1;
  const size = whole - 1 - wide;
  bytes.fill(0, at, end);
  bytes[at] = voidId;
  if (wide === 1) bytes[at + 1] = 0x80 + size;
  else {
    bytes[at + 1] = 0x01;
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(at + 5, size);
  }
}

function elementAt(bytes: Uint8Array, at: number): Element {
  const id = vintAt(bytes, at, true);
  const size = vintAt(bytes, at + id.width);
  const body = at + id.width + size.width;
  if (size.unknown && !masters.has(id.value)) throw unreadable();
  // A recording that was broken off ends in the middle of an element.
  const end = Math.min(bytes.byteLength, size.unknown ? bytes.byteLength : body + size.value);
  return { id: id.value, at, body, end, endless: size.unknown };
}

/** A number of variable width (RFC 8794, 4); ids keep the bit that tells their width. */
function vintAt(
  bytes: Uint8Array,
  at: number,
  withMarker = false,
): { readonly value: number; readonly width: number; readonly unknown: boolean } {
  const first = bytes[at] ?? 0;
  const width = Math.clz32(first) - 23;
  if (first === 0 || at + width > bytes.byteLength) throw unreadable();
  let value = withMarker ? first : first & (0xff >> width);
  let ones = (first & (0xff >> width)) === 0xff >> width;
  for (let step = 1; step < width; step += 1) {
    const byte = bytes[at + step] ?? 0;
    value = value * 256 + byte;
    ones &&= byte === 0xff;
  }
  return { value, width, unknown: ones && !withMarker };
}

function unsigned(bytes: Uint8Array, { body, end }: Element): number {
  return bytes.subarray(body, end).reduce((value, byte) => value * 256 + byte, 0);
}
