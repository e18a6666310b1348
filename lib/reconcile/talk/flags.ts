import { cellFlags, type CellThresholds } from './cellFlags';
import { clearlyLargest } from '../seats/clearlyLargest';
import type { CheckAnswer, Panel, PanelScore } from '../panel/panel';
import { scoreQuality } from '../panel/plainMean';
import type { EvaluatorResult, Flag, Reconciliation } from '../merit/reconciliation';
import { residualsOf, unlikelySpreads, type PriorSpread } from './unlikelySpread';

export type FlagThresholds = CellThresholds & {
  /** How far seats part on a puppy as a whole, beforehand, in units u. */
  readonly puppySpread: PriorSpread;
  /** An odd evaluator by severity: its interval lies beyond this, in units u. */
  readonly severity: number;
};

export const flagThresholds: FlagThresholds = {
  splitChance: 0.05,
  cellSpread: { variance: 0.55, degrees: 4 },
  puppySpread: { variance: 0.2, degrees: 4 },
  stanceGap: 1.5,
  severity: 1,
};

/** What flags are read from; a panel that gave no free-stance scores leaves them out. */
export type FlagSource = {
  readonly panel: Panel;
  readonly result: Pick<Reconciliation, 'slots' | 'evaluators'>;
  readonly checks: readonly CheckAnswer[];
  readonly freeStances?: readonly PanelScore[];
};

/** All flags, in the order close calls, puppies, criteria, stances, checks, evaluators; the least likely split first within a kind. */
export function flags(read: FlagSource, thresholds: FlagThresholds = flagThresholds): Flag[] {
  const { panel, result } = read;
  const unit = (panel.scale.high - panel.scale.low) / 6;
  const odd = oddEvaluator(result.evaluators, thresholds.severity * unit);
  return [
    ...result.slots.filter(({ close }) => close).map(({ key }): Flag => ({ kind: 'closeCall', slot: key })),
    ...splitPuppies(panel, thresholds),
    ...cellFlags(panel, read.freeStances ?? [], thresholds),
    ...splitChecks(read.checks),
    ...(odd ? [odd] : []),
  ];
}

/** A seat's standing for a puppy: the mean over the criteria of its quality there, each criterion's mean and the seat's level taken off. */
function splitPuppies(panel: Panel, { splitChance, puppySpread }: FlagThresholds): Flag[] {
  const unit = (panel.scale.high - panel.scale.low) / 6;
  const standings = seatStandings(panel);
  const [spreads = []] = unlikelySpreads(
    [standings.map(({ value, ...place }) => ({ ...place, value: value / unit }))],
    puppySpread,
  );
  return spreads
    .filter(({ chance }) => chance < splitChance)
    .sort((a, b) => a.chance - b.chance)
    .map(({ row: puppy }) => {
      const values = standings.filter(({ row }) => row === puppy).map(({ value }) => value);
      return { kind: 'splitOnPuppy', puppy, range: Math.max(...values) - Math.min(...values) };
    });
}

/** By puppy and seat, in points; a criterion's gaps are filled by an additive fit, so that a card with gaps is not better for what it lacks. */
function seatStandings(panel: Panel): { readonly row: string; readonly seat: string; readonly value: number }[] {
  const sums = new Map<string, { row: string; seat: string; sum: number; count: number }>();
  for (const criterion of panel.criteria) {
    const scores = panel.scores.filter((score) => score.criterion === criterion.key);
    const cells = scores.map(({ puppy, evaluator, value }) => ({
      row: puppy,
      seat: evaluator,
      value: scoreQuality(panel, value, criterion),
    }));
    residualsOf(cells).forEach((left, at) => {
      const cell = cells[at];
      if (!cell) return;
      const key = JSON.stringify([cell.row, cell.seat]);
      const { sum, count } = sums.get(key) ?? { sum: 0, count: 0 };
      sums.set(key, { row: cell.row, seat: cell.seat, sum: sum + left, count: count + 1 });
    });
  }
  return [...sums.values()].map(({ row, seat, sum, count }) => ({ row, seat, value: sum / count }));
}

function splitChecks(checks: readonly CheckAnswer[]): Flag[] {
  const findings = new Map<string, { puppy: string; check: string; seen: Set<boolean> }>();
  for (const { puppy, check, finding } of checks) {
    const key = JSON.stringify([puppy, check]);
    const entry = findings.get(key) ?? { puppy, check, seen: new Set<boolean>() };
    entry.seen.add(finding === 'normal');
    findings.set(key, entry);
  }
  return [...findings.values()]
    .filter(({ seen }) => seen.size > 1)
    .map(({ puppy, check }) => ({ kind: 'splitCheck', puppy, check }));
}

/** The one evaluator who stands out; none below three seats, and none when several do. */
function oddEvaluator(evaluators: readonly EvaluatorResult[], severe: number): Flag | null {
  const scored = evaluators.filter(({ noise }) => !('undefined' in noise));
  if (scored.length < 3) return null;
  const found = scored.flatMap((one): { evaluator: string; by: 'severity' | 'liking' | 'noise' }[] => {
    const { evaluator, severity } = one;
    if (!('undefined' in severity) && (severity.low > severe || severity.high < -severe))
      return [{ evaluator, by: 'severity' }];
    const by = (['liking', 'noise'] as const).find((kind) => clearlyLargest(one, scored, kind));
    return by ? [{ evaluator, by }] : [];
  });
  const [only, ...more] = found;
  return only && more.length === 0 ? { kind: 'oddEvaluator', ...only } : null;
}
