import type { CsvError } from './csvFault';

/** Bytes of a file as text. Anything but UTF-8 is refused with the line of its first foreign byte, never guessed at. */
export function decodeText(bytes: Uint8Array): { text: string } | { error: CsvError } {
  try {
    return { text: decode(bytes) };
  } catch {
    const message = 'The file is not UTF-8 text; save it as "CSV UTF-8".';
    return { error: { line: lineOfFirstFault(bytes), column: 1, message, more: 0 } };
  }
}

function decode(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
}

function lineOfFirstFault(bytes: Uint8Array): number {
  let [start, line] = [0, 1];
  for (;;) {
    const end = bytes.indexOf(10, start);
    try {
      decode(bytes.subarray(start, end === -1 ? bytes.length : end));
    } catch {
      return line;
    }
    if (end === -1) return line;
    [start, line] = [end + 1, line + 1];
  }
}
