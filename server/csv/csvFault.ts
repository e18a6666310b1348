/** One thing wrong with a file. `line` counts from 1 at the heading; `column` is the place of the field in its line, from 1. */
export type CsvFault = { readonly line: number; readonly column: number; readonly message: string };

/** Why a file was refused: its first fault, and how many more there are. */
export type CsvError = CsvFault & { readonly more: number };

/** The first of these faults in reading order, with the count of the rest; null when there are none. */
export function firstFault(faults: readonly CsvFault[]): CsvError | null {
  const [first] = [...faults].sort((a, b) => a.line - b.line || a.column - b.column);
  return first ? { ...first, more: faults.length - 1 } : null;
}
