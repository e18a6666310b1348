import { readings } from '#lib/reconcile/sentences/readings';
import type { CriterionResult } from './PuppyStrip';

/** How far the seats lie apart on a criterion, in points; says so when no puppy has two scores. */
export function spreadWords({ spread, withinOne }: CriterionResult): string {
  if (spread === null || withinOne === null) return 'No puppy has two scores here.';
  return `${spread.toFixed(1)} points from lowest to highest seat; ${pairWords(withinOne)} pairs of scores within one point`;
}

/** A share of pairs can be none or all of them; only a chance cannot. */
function pairWords(share: number): string {
  if (share === 0) return 'no';
  return share === 1 ? 'all' : readings(share);
}
