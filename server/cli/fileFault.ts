import type { CsvError } from '../csv/csvFault';
import type { CliOutput } from './cliOutput';

type Fault = { readonly file: string; readonly error: CsvError };

/** Says why a file could not be used: an object among the answers, or a line among the complaints. */
export function fileFault({ file, error }: Fault, { json, output }: { readonly json: boolean; readonly output: CliOutput }): void {
  if (json) output.answer(JSON.stringify({ file, error }));
  else output.complain(`${file}:${error.line}:${error.column}: ${error.message}${error.more > 0 ? ` (and ${error.more} more)` : ''}`);
}
