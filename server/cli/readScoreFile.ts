import { readFile, stat } from 'node:fs/promises';
import { type CsvError, decodeText } from '../csv/parseTable';
import type { CliOutput } from './cliOutput';

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

type Fault = { readonly file: string; readonly error: CsvError };

/** Says why a file could not be used: an object among the answers, or a line among the complaints. */
export function fileFault(
  { file, error }: Fault,
  { json, output }: { readonly json: boolean; readonly output: CliOutput },
): void {
  if (json) output.answer(JSON.stringify({ file, error }));
  else
    output.complain(
      `${file}:${error.line}:${error.column}: ${error.message}${error.more > 0 ? ` (and ${error.more} more)` : ''}`,
    );
}
