import { readFile, stat } from 'node:fs/promises';
import type { CsvError } from '../csv/csvFault';
import { decodeText } from '../csv/decodeText';

/** Larger than any day's scores by far; a file beyond it is a mistake, and reading it would only exhaust memory. */
export const mostBytes = 16 * 1024 * 1024;

const causes: Readonly<Record<string, string>> = {
  ENOENT: 'There is no such file.',
  EACCES: 'The file may not be read.',
  EISDIR: 'This is a folder, not a file.',
};

/** A whole file as text, or why not; line and column are 0 where the fault lies outside its text. */
export async function readScoreFile(path: string): Promise<{ text: string } | { error: CsvError }> {
  try {
    const { size } = await stat(path);
    if (size > mostBytes) return outside(`The file is too large: ${size} bytes; the limit is ${mostBytes}.`);
    return decodeText(await readFile(path));
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    return outside(causes[code] ?? `The file cannot be read (${code}).`);
  }
}

function outside(message: string): { error: CsvError } {
  return { error: { line: 0, column: 0, message, more: 0 } };
}
