import { fUpperTail } from '#lib/stats/fDistribution';

/** Values of several seats in rows that are judged by the seats' own spread; seats' constant differences are taken off table by table. */
export type SpreadTable = readonly { readonly row: string; readonly seat: string; readonly value: number }[];

export type RowSpread = {
  readonly row: string;
  /** SD of the seats' values in this row, their levels taken off. */
  readonly sd: number;
  /** Chance of an SD as large or larger in a row on which the seats do not differ more than on the others. */
  readonly chance: number;
};

/** What little is known of a spread beforehand: a variance, and how many degrees of freedom it is worth. */
export type PriorSpread = { readonly variance: number; readonly degrees: number };

/** Sweeps over rows and seats; a table with gaps settles to a thousandth of a point in fewer. */
const SWEEPS = 20;

/**
 * How far the seats part in each row, against how far they part in all the others: F = S² of the row over S² of the rest, S² being the mean square of
 * what is left of y once row and seat are taken off each table (two-way additive fit). F has the degrees of freedom of the row and of the rest,
 * each row bearing its part of those the fit leaves, so the chance is one for 2 seats as for 12. A raw range is not: the more seats, the wider.
 * Source: Scheffé 1959, chapter 4. Worked example: rows [1, 1], [2, 2], [3, 3], [1, 4] leave residuals of ±3/8 in the first three and ±9/8 in the last.
 * Rows with a single value are left out.
 */
export function unlikelySpreads(tables: readonly SpreadTable[], prior: PriorSpread): RowSpread[][] {
  const fitted = tables.map(rowSquares);
  const all = fitted
    .flat()
    .reduce((sum, row) => ({ squares: sum.squares + row.squares, degrees: sum.degrees + row.degrees }), {
      squares: 0,
      degrees: 0,
    });
  return fitted.map((rows) =>
    rows.map(({ row, squares, degrees }) => {
      const restDegrees = Math.max(0, all.degrees - degrees) + prior.degrees;
      const rest = (Math.max(0, all.squares - squares) + prior.degrees * prior.variance) / restDegrees;
      const own = squares / degrees;
      return { row, sd: Math.sqrt(own), chance: fUpperTail(own / rest, { df1: degrees, df2: restDegrees }) };
    }),
  );
}

type RowSquares = { readonly row: string; readonly squares: number; readonly degrees: number };

function rowSquares(table: SpreadTable): RowSquares[] {
  const left = residualsOf(table);
  const shared = [...grouped(table, 'row')].filter(([, cells]) => cells.length > 1);
  const free = shared.reduce((sum, [, cells]) => sum + cells.length - 1, 0);
  const seats = new Set(shared.flatMap(([, cells]) => cells.map((at) => table[at]?.seat)));
  const degrees = free - seats.size + 1;
  if (degrees <= 0) return [];
  return shared.map(([row, cells]) => ({
    row,
    degrees: (degrees * (cells.length - 1)) / free,
    squares: cells.reduce((sum, at) => sum + (left[at] ?? 0) ** 2, 0),
  }));
}

/** What is left of the values once rows and seats are taken off; in the order of the table. */
export function residualsOf(table: SpreadTable): number[] {
  const groups = [...grouped(table, 'row').values(), ...grouped(table, 'seat').values()];
  const left = table.map(({ value }) => value);
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    for (const cells of groups) {
      const mean = cells.reduce((sum, at) => sum + (left[at] ?? 0), 0) / cells.length;
      for (const at of cells) left[at] = (left[at] ?? 0) - mean;
    }
  }
  return left;
}

function grouped(table: SpreadTable, by: 'row' | 'seat'): Map<string, number[]> {
  const groups = new Map<string, number[]>();
  table.forEach((cell, at) => {
    const known = groups.get(cell[by]);
    if (known) known.push(at);
    else groups.set(cell[by], [at]);
  });
  return groups;
}
