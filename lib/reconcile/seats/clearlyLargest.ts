import type { EvaluatorResult } from '../merit/reconciliation';

/** Below this many seats nobody is singled out: two cannot tell who differs from whom. */
const LEAST_SEATS = 3;

/**
 * How likely it has to be that a seat's SD is more than a quarter larger than every other's. Chosen on simulated panels so that seats that are truly alike
 * are named in two of 130, one with 3.5 times the liking of the others in 100 of 130 (94 by interval against points) and one with 3 times the noise in 129 (122).
 */
const NAMED_FROM = { liking: 0.66, noise: 0.85 } as const;

/** Whether one evaluator's liking or noise SD is clearly the largest. */
export function clearlyLargest(
  one: EvaluatorResult,
  all: readonly EvaluatorResult[],
  kind: 'liking' | 'noise',
): boolean {
  const compared = all.filter((other) => !('undefined' in other[kind])).length;
  return compared >= LEAST_SEATS && !('undefined' in one[kind]) && one.standsOut[kind] >= NAMED_FROM[kind];
}
