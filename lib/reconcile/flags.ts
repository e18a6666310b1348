import { cellFlags, type CellThresholds } from './cellFlags';
import { clearlyLargest } from './clearlyLargest';
import type { CheckAnswer, Panel, PanelScore } from './panel';
import type { EvaluatorResult, Flag, Reconciliation } from './reconciliation';

export type FlagThresholds = CellThresholds & {
  /** Split on a puppy: range of the seats' standings for it, in units u. */
  readonly puppyRange: number;
  /** An odd evaluator by severity: its interval lies beyond this, in units u. */
  readonly severity: number;
};

export const flagThresholds: FlagThresholds = { puppyRange: 1.5, criterionRange: 3, stanceGap: 1.5, severity: 1 };

/** What flags are read from; a panel that gave no free-stance scores leaves them out. */
export type FlagSource = {
  readonly panel: Panel;
  readonly result: Pick<Reconciliation, 'slots' | 'evaluators'>;
  readonly checks: readonly CheckAnswer[];
  readonly freeStances?: readonly PanelScore[];
};

/** All flags, in the order close calls, puppies, criteria, stances, checks, evaluators; the widest split first within a kind. */
export function flags(
  read: FlagSource,
  thresholds: FlagThresholds = flagThresholds,
): Flag[] {
  const { panel, result } = read;
  const unit = (panel.scale.high - panel.scale.low) / 6;
  const byRange = (a: { readonly range: number }, b: { readonly range: number }) => b.range - a.range;
  const odd = oddEvaluator(result.evaluators, thresholds.severity * unit);
  return [
    ...result.slots.filter(({ close }) => close).map(({ key }): Flag => ({ kind: 'closeCall', slot: key })),
    ...splitPuppies(panel, result.evaluators).filter(({ range }) => range >= thresholds.puppyRange * unit).sort(byRange),
    ...cellFlags(panel, read.freeStances ?? [], thresholds),
    ...splitChecks(read.checks),
    ...(odd ? [odd] : []),
  ];
}

/** A seat's standing for a puppy: its mean over the criteria against all seats' mean of the same cells, less its own severity. */
function splitPuppies(panel: Panel, evaluators: readonly EvaluatorResult[]) {
  const severity = new Map(evaluators.map((one) => [one.evaluator, 'undefined' in one.severity ? 0 : one.severity.value]));
  const oneSided = new Set(panel.criteria.filter(({ twoSided }) => !twoSided).map(({ key }) => key));
  return panel.puppies.flatMap((puppy) => {
    const scores = panel.scores.filter((score) => score.puppy === puppy && oneSided.has(score.criterion));
    const cellMeans = meansBy(scores, ({ criterion }) => criterion, ({ value, evaluator }) => value - (severity.get(evaluator) ?? 0));
    const standings = meansBy(scores, ({ evaluator }) => evaluator, ({ value, evaluator, criterion }) =>
      value - (severity.get(evaluator) ?? 0) - (cellMeans.get(criterion) ?? 0),
    );
    return standings.size < 2 ? [] : [{ kind: 'splitOnPuppy' as const, puppy, range: rangeOf([...standings.values()]) }];
  });
}

function splitChecks(checks: readonly CheckAnswer[]): Flag[] {
  const findings = new Map<string, { puppy: string; check: string; seen: Set<boolean> }>();
  for (const { puppy, check, finding } of checks) {
    const key = JSON.stringify([puppy, check]);
    const entry = findings.get(key) ?? { puppy, check, seen: new Set<boolean>() };
    entry.seen.add(finding === 'normal');
    findings.set(key, entry);
  }
  return [...findings.values()].filter(({ seen }) => seen.size > 1).map(({ puppy, check }) => ({ kind: 'splitCheck', puppy, check }));
}

/** The one evaluator who stands out; none below three seats, and none when several do. */
function oddEvaluator(evaluators: readonly EvaluatorResult[], severe: number): Flag | null {
  const scored = evaluators.filter(({ noise }) => !('undefined' in noise));
  if (scored.length < 3) return null;
  const found = scored.flatMap((one): { evaluator: string; by: 'severity' | 'liking' | 'noise' }[] => {
    const { evaluator, severity } = one;
    if (!('undefined' in severity) && (severity.low > severe || severity.high < -severe)) return [{ evaluator, by: 'severity' }];
    const by = (['liking', 'noise'] as const).find((kind) => clearlyLargest(one, scored, kind));
    return by ? [{ evaluator, by }] : [];
  });
  const [only, ...more] = found;
  return only && more.length === 0 ? { kind: 'oddEvaluator', ...only } : null;
}

function meansBy<T>(list: readonly T[], keyOf: (one: T) => string, valueOf: (one: T) => number): Map<string, number> {
  const sums = new Map<string, { sum: number; count: number }>();
  for (const one of list) {
    const { sum, count } = sums.get(keyOf(one)) ?? { sum: 0, count: 0 };
    sums.set(keyOf(one), { sum: sum + valueOf(one), count: count + 1 });
  }
  return new Map([...sums].map(([key, { sum, count }]) => [key, sum / count]));
}

function rangeOf(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}
