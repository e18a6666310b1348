import { canonicalPanel, type CanonicalCell } from './canonicalPanel';
import type { Panel, PanelCriterion } from './panel';
import { roundingVariance, scoreStep } from './scoreStep';

/** Which puppy and which seat each cell belongs to. */
export type Cells = { readonly puppies: Int32Array; readonly seats: Int32Array };

/** Criteria judged in exactly the same cells: they share one covariance matrix. */
export type Pattern = Cells & {
  /** Position of each cell among `design.pairs`; empty for two-sided criteria, which have no part in likings. */
  readonly pairs: Int32Array;
  readonly criteria: readonly { readonly index: number; readonly values: Float64Array }[];
};

/** The panel as the model sees it: canonical order, scores in units from the middle of the scale, degrees in steps. */
export type PanelDesign = {
  readonly puppies: readonly string[];
  readonly seats: readonly string[];
  readonly criteria: readonly PanelCriterion[];
  /** A sixth of the scale: one step of a seven-step sheet (u). */
  readonly unit: number;
  readonly middle: number;
  /** The puppy-seat pairs with at least one one-sided score, in order of puppy then seat. */
  readonly pairs: Cells;
  readonly oneSided: readonly Pattern[];
  readonly twoSided: readonly Pattern[];
  readonly scoresBySeat: readonly number[];
  /**
   * Variance of rounding a score to the scale's step, in units u² (steps of d for a two-sided criterion). No noise is smaller: seats that give
   * the same whole score may still differ by nearly a step.
   */
  readonly rounding: { readonly oneSided: number; readonly twoSided: number };
  readonly seed: number;
};

/** @param kept criteria that carry weight somewhere and so stay even when nobody judged them. */
export function panelDesign(panel: Panel, kept: ReadonlySet<string>): PanelDesign {
  const { puppies, seats, criteria, cells, seed } = canonicalPanel(panel, kept);
  const range = panel.scale.high - panel.scale.low;
  const unit = range > 0 ? range / 6 : 1;
  const middle = (panel.scale.high + panel.scale.low) / 2;
  const byCriterion: CanonicalCell[][] = criteria.map(() => []);
  for (const cell of cells) byCriterion[cell.criterion]?.push(cell);
  const isTwoSided = (index: number) => criteria[index]?.twoSided === true;
  const pairs = observedPairs(cells.filter((cell) => !isTwoSided(cell.criterion)));
  const standard = byCriterion.map((list, index) =>
    list.map((cell) => (isTwoSided(index) ? cell : { ...cell, value: (cell.value - middle) / unit })),
  );
  return {
    puppies, seats, criteria, unit, middle, pairs, seed,
    oneSided: groupByPattern(standard, { wanted: (index) => !isTwoSided(index), pairs }),
    twoSided: groupByPattern(standard, { wanted: isTwoSided, pairs: null }),
    scoresBySeat: seats.map((_, seat) => cells.filter((cell) => cell.seat === seat).length),
    rounding: { oneSided: roundingOf(panel, false) / unit ** 2, twoSided: roundingOf(panel, true) },
  };
}

function roundingOf(panel: Panel, twoSided: boolean): number {
  const keys = new Set(panel.criteria.filter((criterion) => criterion.twoSided === twoSided).map(({ key }) => key));
  return roundingVariance(scoreStep(panel.scores.filter(({ criterion }) => keys.has(criterion)).map(({ value }) => value)));
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
  byCriterion: readonly (readonly CanonicalCell[])[],
  choice: { wanted: (index: number) => boolean; pairs: Cells | null },
): Pattern[] {
  const positions = new Map<string, number>();
  choice.pairs?.puppies.forEach((puppy, at) => positions.set(pairKey({ puppy, seat: choice.pairs?.seats[at] ?? -1 }), at));
  const groups = new Map<string, { list: readonly CanonicalCell[]; criteria: { index: number; values: Float64Array }[] }>();
  byCriterion.forEach((list, index) => {
    if (!choice.wanted(index)) return;
    const key = list.map(pairKey).join(' ');
    const group = groups.get(key) ?? { list, criteria: [] };
    group.criteria.push({ index, values: Float64Array.from(list, (cell) => cell.value) });
    groups.set(key, group);
  });
  return [...groups.values()].map(({ list, criteria }) => ({
    ...cellsOf(list),
    pairs: choice.pairs ? Int32Array.from(list, (cell) => positions.get(pairKey(cell)) ?? -1) : new Int32Array(0),
    criteria,
  }));
}
