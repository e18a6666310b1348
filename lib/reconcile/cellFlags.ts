import type { Panel, PanelScore } from './panel';

/** Something about one puppy on one criterion that the panel should look at together. */
export type CellFlag =
  | { readonly kind: 'splitOnCriterion'; readonly puppy: string; readonly criterion: string; readonly range: number; readonly oppositeDirections: boolean }
  | { readonly kind: 'stackAgainstFree'; readonly puppy: string; readonly criterion: string; readonly gap: number };

export type CellThresholds = {
  /** Split on a criterion: range of the scores in one puppy's cell, in units u (steps of d for a two-sided criterion). */
  readonly criterionRange: number;
  /** Stack against free stance: mean difference over the seats that scored both, in the same units. */
  readonly stanceGap: number;
};

/** Splits on a criterion, then stacks that do not stand up to the free stance; the widest first within each. */
export function cellFlags(panel: Panel, freeStances: readonly PanelScore[], thresholds: CellThresholds): CellFlag[] {
  const unit = (panel.scale.high - panel.scale.low) / 6;
  const splits = splitCriteria(panel, { unit, wide: thresholds.criterionRange });
  const stances = stanceGaps(panel, freeStances, { unit, wide: thresholds.stanceGap });
  return [...splits.sort((a, b) => b.range - a.range), ...stances.sort((a, b) => Math.abs(b.gap) - Math.abs(a.gap))];
}

type Wide = { readonly unit: number; readonly wide: number };

function splitCriteria(panel: Panel, { unit, wide: least }: Wide) {
  return panel.criteria.flatMap(({ key: criterion, twoSided }) =>
    panel.puppies.flatMap((puppy) => {
      const values = panel.scores.filter((score) => score.puppy === puppy && score.criterion === criterion).map(({ value }) => value);
      if (values.length < 2) return [];
      const range = Math.max(...values) - Math.min(...values);
      const oppositeDirections = twoSided && values.some((value) => value <= -1) && values.some((value) => value >= 1);
      const wide = range >= least * (twoSided ? 1 : unit);
      return wide || oppositeDirections ? [{ kind: 'splitOnCriterion' as const, puppy, criterion, range, oppositeDirections }] : [];
    }),
  );
}

function stanceGaps(panel: Panel, freeStances: readonly PanelScore[], { unit, wide }: Wide) {
  const twoSided = new Set(panel.criteria.filter((criterion) => criterion.twoSided).map(({ key }) => key));
  const cells = new Map<string, { readonly puppy: string; readonly criterion: string; readonly gaps: number[] }>();
  for (const free of freeStances) {
    const { puppy, criterion } = free;
    const stacked = panel.scores.find((one) => one.puppy === puppy && one.criterion === criterion && one.evaluator === free.evaluator);
    if (!stacked) continue;
    const key = JSON.stringify([puppy, criterion]);
    const cell = cells.get(key) ?? { puppy, criterion, gaps: [] };
    cell.gaps.push(stacked.value - free.value);
    cells.set(key, cell);
  }
  return [...cells.values()].flatMap(({ puppy, criterion, gaps }) => {
    const gap = gaps.reduce((sum, one) => sum + one, 0) / gaps.length;
    return Math.abs(gap) >= wide * (twoSided.has(criterion) ? 1 : unit) ? [{ kind: 'stackAgainstFree' as const, puppy, criterion, gap }] : [];
  });
}
