/** Where a command speaks: its answer, and its complaints. Handed in, so that tests read both without touching the process. */
export type CliOutput = { readonly answer: (line: string) => void; readonly complain: (line: string) => void };

export const processOutput: CliOutput = {
  answer: (line) => void process.stdout.write(`${line}\n`),
  complain: (line) => void process.stderr.write(`${line}\n`),
};

/** Rows of cells as lines of text: the first column flush left, the others right, two spaces between. */
export function textColumns(rows: readonly (readonly string[])[]): string[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: count }, (_, column) =>
    Math.max(0, ...rows.map((row) => width(row[column] ?? ''))),
  );
  return rows.map((row) =>
    row
      .map((cell, column) => padded(cell, { to: widths[column] ?? 0, left: column === 0 }))
      .join('  ')
      .trimEnd(),
  );
}

/** Counts characters as a reader does, not code units. */
const width = (text: string): number => [...text].length;

function padded(text: string, { to, left }: { readonly to: number; readonly left: boolean }): string {
  const gap = ' '.repeat(Math.max(0, to - width(text)));
  return left ? text + gap : gap + text;
}
