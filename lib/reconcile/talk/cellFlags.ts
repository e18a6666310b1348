import type { Panel, PanelScore } from '../panel/panel';
import { unlikelySpreads, type PriorSpread } from './unlikelySpread';

/** Something about one puppy on one criterion that the panel should look at together. */
export type CellFlag =
  | {
      readonly kind: 'splitOnCriterion';
      readonly puppy: string;
      readonly criterion: string;
      readonly range: number;
      readonly oppositeDirections: boolean;
    }
  | { readonly kind: 'stackAgainstFree'; readonly puppy: string; readonly criterion: string; readonly gap: number };

export type CellThresholds = {
  /** A split: SD of the seats, their levels taken off, as only this share of cells would have by chance. */
  readonly splitChance: number;
  /** How far seats part in one cell, beforehand, in units u (steps of d for a two-sided criterion). */
  readonly cellSpread: PriorSpread;
  /** Stack against free stance: mean difference over the seats that scored both, in units u or steps of d. */
  readonly stanceGap: number;
};

/** Splits on a criterion, then stacks that do not stand up to the free stance; the least likely first, the widest first. */
export function cellFlags(panel: Panel, freeStances: readonly PanelScore[], thresholds: CellThresholds): CellFlag[] {
  const unit = (panel.scale.high - panel.scale.low) / 6;
  const splits = splitCriteria(panel, thresholds);
  const stances = stanceGaps(panel, freeStances, { unit, wide: thresholds.stanceGap });
  return [...splits, ...stances.sort((a, b) => Math.abs(b.gap) - Math.abs(a.gap))];
}

type Wide = { readonly unit: number; readonly wide: number };

function splitCriteria(panel: Panel, { splitChance, cellSpread }: CellThresholds): CellFlag[] {
  const unit = (panel.scale.high - panel.scale.low) / 6;
  const found = [true, false].flatMap((signed) => {
    const criteria = panel.criteria.filter(({ twoSided }) => twoSided === signed);
    const tables = criteria.map(({ key }) => panel.scores.filter(({ criterion }) => criterion === key));
    const spreads = unlikelySpreads(
      tables.map((scores) =>
        scores.map(({ puppy, evaluator, value }) => ({
          row: puppy,
          seat: evaluator,
          value: signed ? value : value / unit,
        })),
      ),
      cellSpread,
    );
    return spreads.flatMap((rows, at) =>
      rows
        .filter(({ chance }) => chance < splitChance)
        .map(({ row: puppy, chance }) => {
          const values = (tables[at] ?? []).filter((score) => score.puppy === puppy).map(({ value }) => value);
          const oppositeDirections =
            signed && values.some((value) => value <= -1) && values.some((value) => value >= 1);
          const range = Math.max(...values) - Math.min(...values);
          return {
            chance,
            flag: {
              kind: 'splitOnCriterion' as const,
              puppy,
              criterion: criteria[at]?.key ?? '',
              range,
              oppositeDirections,
            },
          };
        }),
    );
  });
  return found.sort((a, b) => a.chance - b.chance).map(({ flag }) => flag);
}

function stanceGaps(panel: Panel, freeStances: readonly PanelScore[], { unit, wide }: Wide) {
  const twoSided = new Set(panel.criteria.filter((criterion) => criterion.twoSided).map(({ key }) => key));
  const cells = new Map<string, { readonly puppy: string; readonly criterion: string; readonly gaps: number[] }>();
  for (const free of freeStances) {
    const { puppy, criterion } = free;
    const stacked = panel.scores.find(
      (one) => one.puppy === puppy && one.criterion === criterion && one.evaluator === free.evaluator,
    );
    if (!stacked) continue;
    const key = JSON.stringify([puppy, criterion]);
    const cell = cells.get(key) ?? { puppy, criterion, gaps: [] };
    cell.gaps.push(stacked.value - free.value);
    cells.set(key, cell);
  }
  return [...cells.values()].flatMap(({ puppy, criterion, gaps }) => {
    const gap = gaps.reduce((sum, one) => sum + one, 0) / gaps.length;
    return Math.abs(gap) >= wide * (twoSided.has(criterion) ? 1 : unit)
      ? [{ kind: 'stackAgainstFree' as const, puppy, criterion, gap }]
      : [];
  });
}
