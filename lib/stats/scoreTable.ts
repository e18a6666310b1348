/** Scores in points: rows are units (what is scored), columns are raters; null is a cell nobody scored. */
export type ScoreTable = readonly (readonly (number | null)[])[];

/**
 * The same table with rows and columns in an order that depends on the scores alone, so that every figure computed
 * from it, its last digit and its resampling draws included, is the same whatever order the rows and columns came
 * in (ST2).
 *
 * Columns are sorted by their sorted scores, then rows by their sorted scores, then by the scores as they stand.
 *
 * @example
 * canonicalTable([[3, null, 1], [2, 2, 2]]) // [[null, 1, 3], [2, 2, 2]]
 * canonicalTable([[2, 2, 2], [1, 3, null]]) // [[null, 1, 3], [2, 2, 2]]
 */
export function canonicalTable(table: ScoreTable): ScoreTable {
  const width = widthOf(table);
  const columns = Array.from({ length: width }, (_, column) => ({
    column,
    key: scoresOf(table.map((row) => row[column] ?? null)),
  }));
  columns.sort((a, b) => compareScores(a.key, b.key));
  const arranged = table.map((row) => columns.map(({ column }) => row[column] ?? null));
  return arranged
    .map((row) => ({ row, key: scoresOf(row) }))
    .sort((a, b) => compareScores(a.key, b.key) || compareScores(a.row.map(asNumber), b.row.map(asNumber)))
    .map(({ row }) => row);
}

/**
 * The scores present, ascending.
 *
 * @example
 * scoresOf([3, null, 1]) // [1, 3]
 */
export function scoresOf(row: readonly (number | null)[]): number[] {
  return row.filter((score) => score !== null).sort((a, b) => a - b);
}

/**
 * False when all scores are equal but for rounding (weighted totals, say), or when there is none.
 *
 * @example
 * varies([0.1 + 0.2, 0.3]) // false
 * varies([1, 1, 2]) // true
 */
export function varies(scores: readonly number[]): boolean {
  const low = scores.reduce((least, score) => Math.min(least, score), Infinity);
  const high = scores.reduce((most, score) => Math.max(most, score), -Infinity);
  return high - low > 1e-12 * Math.max(Math.abs(low), Math.abs(high));
}

/**
 * The table without the rows and columns that hold no score.
 *
 * @example
 * withoutEmpty([[1, null], [null, null], [2, null]]) // [[1], [2]]
 */
export function withoutEmpty(table: ScoreTable): ScoreTable {
  const width = widthOf(table);
  const columns = Array.from({ length: width }, (_, column) => column).filter((column) =>
    table.some((row) => (row[column] ?? null) !== null),
  );
  return table
    .filter((row) => row.some((score) => score !== null))
    .map((row) => columns.map((column) => row[column] ?? null));
}

/**
 * Distinct scores of the table, ascending.
 *
 * @example
 * distinctScores([[3, 1], [null, 3]]) // [1, 3]
 */
export function distinctScores(table: ScoreTable): number[] {
  return [...new Set(table.flat().filter((score) => score !== null))].sort((a, b) => a - b);
}

/**
 * Number of columns of the longest row; 0 of an empty table.
 *
 * @example
 * widthOf([[1], [2, 3]]) // 2
 */
export function widthOf(table: ScoreTable): number {
  return table.reduce((most, row) => Math.max(most, row.length), 0);
}

/**
 * Whether every row is as long as the first and holds a score in every cell.
 *
 * @example
 * isComplete([[1, 2], [3, 4]]) // true
 * isComplete([[1, 2], [3, null]]) // false
 */
export function isComplete(table: ScoreTable): boolean {
  const width = table[0]?.length ?? 0;
  return table.every((row) => row.length === width && row.every((score) => score !== null));
}

/**
 * Number of columns with at least one score.
 *
 * @example
 * raterCount([[1, null, 2], [3, null, null]]) // 2
 */
export function raterCount(table: ScoreTable): number {
  const seen = new Set<number>();
  for (const row of table) row.forEach((score, column) => score !== null && seen.add(column));
  return seen.size;
}

const asNumber = (score: number | null): number => score ?? -Infinity;

function compareScores(a: readonly number[], b: readonly number[]): number {
  if (a.length !== b.length) return a.length - b.length;
  for (let at = 0; at < a.length; at += 1) {
    const left = a[at] ?? 0;
    const right = b[at] ?? 0;
    if (left !== right) return left < right ? -1 : 1;
  }
  return 0;
}
