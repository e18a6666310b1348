import { describe, expect, it } from 'vitest';
import { decodeText } from '#server/csv/parseTable';

const refusal = (line: number) => ({
  error: { line, column: 1, message: 'The file is not UTF-8 text; save it as "CSV UTF-8".', more: 0 },
});

describe('bytes of a file', () => {
  it('are refused with the line of the first one that is not UTF-8', () => {
    expect(decodeText(Buffer.from('a\nb\nFl\u00e9\nFl\u00e9', 'latin1'))).toEqual(refusal(3));
    expect(decodeText(Buffer.from('\ufeffpuppy', 'utf16le'))).toEqual(refusal(1));
    // A character cut off at the end of the file.
    expect(decodeText(Buffer.from('a\nFl\u00e9').subarray(0, -1))).toEqual(refusal(2));
  });

  it('are read as they stand, mark and line endings too', () => {
    expect(decodeText(Buffer.from('\ufeffFl\u00e9\r\n∞'))).toEqual({ text: '\ufeffFl\u00e9\r\n∞' });
    expect(decodeText(new Uint8Array())).toEqual({ text: '' });
  });
});
