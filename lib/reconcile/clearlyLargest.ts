import type { EvaluatorResult } from './reconciliation';

/** Below this many seats nobody is singled out: two cannot tell who differs from whom. */
const LEAST_SEATS = 3;

/** Whether one evaluator's liking or noise SD is clearly the largest: its 90% interval lies above every other seat's estimate. */
export function clearlyLargest(one: EvaluatorResult, all: readonly EvaluatorResult[], kind: 'liking' | 'noise'): boolean {
  const own = one[kind];
  const others = all.flatMap((other) => {
    const theirs = other[kind];
    return other.evaluator === one.evaluator || 'undefined' in theirs ? [] : [theirs.value];
  });
  return !('undefined' in own) && others.length >= LEAST_SEATS - 1 && others.every((value) => value < own.low);
}
