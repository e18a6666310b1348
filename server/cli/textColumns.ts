/** Rows of cells as lines of text: the first column flush left, the others right, two spaces between. */
export function textColumns(rows: readonly (readonly string[])[]): string[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: count }, (_, column) => Math.max(0, ...rows.map((row) => width(row[column] ?? ''))));
  return rows.map((row) => row.map((cell, column) => padded(cell, { to: widths[column] ?? 0, left: column === 0 })).join('  ').trimEnd());
}

/** Counts characters as a reader does, not code units. */
const width = (text: string): number => [...text].length;

function padded(text: string, { to, left }: { readonly to: number; readonly left: boolean }): string {
  const gap = ' '.repeat(Math.max(0, to - width(text)));
  return left ? text + gap : gap + text;
}
