import { canonicalPanel, type CanonicalCell } from '../panel/canonicalPanel';
import type { Cells } from './crossedSystem';
import { meanSquaredStep } from '../panel/degreeCost';
import type { DegreeFold } from './foldDegrees';
import { repeatedShares } from '../seats/identicalSeats';
import type { Panel, PanelCriterion } from '../panel/panel';
import { roundingVariance, scoreStep } from '../panel/scoreStep';

/** Criteria judged in exactly the same cells: they share one covariance matrix. */
export type Pattern = Cells & {
  /** Position of each cell among `design.pairs`. */
  readonly pairs: Int32Array;
  readonly criteria: readonly { readonly index: number; readonly values: Float64Array }[];
};

/** The panel as the model sees it: canonical order, scores in units from the middle of the scale, degrees folded to the same. */
export type PanelDesign = {
  readonly puppies: readonly string[];
  readonly seats: readonly string[];
  readonly criteria: readonly PanelCriterion[];
  /** A sixth of the scale: one step of a seven-step sheet (u). */
  readonly unit: number;
  readonly middle: number;
  /** The puppy-seat pairs with at least one score, in order of puppy then seat. */
  readonly pairs: Cells;
  readonly oneSided: readonly Pattern[];
  /** Two-sided criteria, folded to quality. */
  readonly folded: readonly Pattern[];
  readonly scoresBySeat: readonly number[];
  /**
   * Variance of rounding a score to the scale's step (to a degree, for a two-sided criterion), in units u². No noise is smaller: seats that give
   * the same whole score may still differ by nearly a step.
   */
  readonly rounding: { readonly oneSided: number; readonly folded: number };
  readonly seed: number;
  /** By seat: the share of its cells in which it is taken to repeat the seat that has 1 here. All 0 where no seats are taken for dependent. */
  readonly repeats: readonly number[];
};

/**
 * @param kept criteria that carry weight somewhere and so stay even when nobody judged them.
 * @param fold how the degrees of two-sided criteria become quality.
 */
export function panelDesign(panel: Panel, kept: ReadonlySet<string>, fold: DegreeFold): PanelDesign {
  const { puppies, seats, criteria, cells, seed } = canonicalPanel(panel, kept);
  const range = panel.scale.high - panel.scale.low;
  const unit = range > 0 ? range / 6 : 1;
  const middle = (panel.scale.high + panel.scale.low) / 2;
  const tables = criteria.map((criterion, index) => ({
    criterion,
    index,
    cells: cells.filter((cell) => cell.criterion === index),
  }));
  const signed = tables.filter(({ criterion }) => criterion.twoSided);
  const folded = fold({ puppies: puppies.length, seats: seats.length, tables: signed });
  const pairs = observedPairs(cells);
  const one = tables
    .filter(({ criterion }) => !criterion.twoSided)
    .map(({ index, cells: list }) => ({
      index,
      cells: list.map((cell) => ({ ...cell, value: (cell.value - middle) / unit })),
    }));
  return {
    puppies,
    seats,
    criteria,
    unit,
    middle,
    pairs,
    seed,
    repeats: repeatedShares({ ...panel, evaluators: seats }),
    oneSided: groupByPattern(one, pairs),
    folded: groupByPattern(
      signed.map(({ index }, at) => ({ index, cells: folded[at] ?? [] })),
      pairs,
    ),
    scoresBySeat: seats.map((_, seat) => cells.filter((cell) => cell.seat === seat).length),
    rounding: roundings(panel, unit),
  };
}

function roundings(panel: Panel, unit: number): PanelDesign['rounding'] {
  const signed = panel.criteria.filter(({ twoSided }) => twoSided);
  const keys = new Set(signed.map(({ key }) => key));
  const variance = (of: boolean) =>
    roundingVariance(
      scoreStep(panel.scores.filter(({ criterion }) => keys.has(criterion) === of).map(({ value }) => value)),
    );
  const steps = signed.reduce((sum, { cost }) => sum + meanSquaredStep(cost), 0) / Math.max(1, signed.length);
  return { oneSided: variance(false) / unit ** 2, folded: steps * variance(true) };
}

function observedPairs(cells: readonly CanonicalCell[]): Cells {
  const seen = new Map<string, CanonicalCell>();
  for (const cell of cells) seen.set(pairKey(cell), cell);
  return cellsOf([...seen.values()].sort((a, b) => a.puppy - b.puppy || a.seat - b.seat));
}

function pairKey(cell: { readonly puppy: number; readonly seat: number }): string {
  return `${cell.puppy}/${cell.seat}`;
}

function cellsOf(list: readonly CanonicalCell[]): Cells {
  return { puppies: Int32Array.from(list, (cell) => cell.puppy), seats: Int32Array.from(list, (cell) => cell.seat) };
}

function groupByPattern(
  tables: readonly { readonly index: number; readonly cells: readonly CanonicalCell[] }[],
  pairs: Cells,
): Pattern[] {
  const positions = new Map<string, number>();
  pairs.puppies.forEach((puppy, at) => positions.set(pairKey({ puppy, seat: pairs.seats[at] ?? -1 }), at));
  const groups = new Map<
    string,
    { list: readonly CanonicalCell[]; criteria: { index: number; values: Float64Array }[] }
  >();
  for (const { index, cells } of tables) {
    const key = cells.map(pairKey).join(' ');
    const group = groups.get(key) ?? { list: cells, criteria: [] };
    group.criteria.push({ index, values: Float64Array.from(cells, (cell) => cell.value) });
    groups.set(key, group);
  }
  return [...groups.values()].map(({ list, criteria }) => ({
    ...cellsOf(list),
    pairs: Int32Array.from(list, (cell) => positions.get(pairKey(cell)) ?? -1),
    criteria,
  }));
}
