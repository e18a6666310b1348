import type { SeededRandom } from '#lib/stats/seededRandom';
import type { DrawSource, JointDraws } from './jointDraws';
import { lookLogLikelihood, type LookScale } from './lookLikelihood';
import { moveDraws } from './moveDraws';
import { effectiveDraws, relativeWeights } from './relativeWeights';

/** Joint draws with the weights the second looks give them (summing to their number), and how many they are worth. */
export type FoldedDraws = { readonly draws: JointDraws; readonly weights: Float64Array; readonly effective: number };

/**
 * Weighs every joint draw by the likelihood of the second looks. When too few draws carry the weight (the looks contradict the
 * scores, or are many), fresh draws are moved to where both agree instead.
 */
export function foldLooks(source: DrawSource, draws: JointDraws, ask: { readonly scale: LookScale; readonly random: SeededRandom }): FoldedDraws {
  const { plan } = source;
  if (plan.looks.length === 0) return { draws, weights: new Float64Array(draws.count).fill(1), effective: draws.count };
  const logs = Float64Array.from({ length: draws.count }, (_, row) => lookLogLikelihood(plan, ask.scale, { draws, row }));
  const weights = relativeWeights(logs, 1);
  const effective = effectiveDraws(weights);
  if (effective >= Math.min(ask.scale.settings.leastEffective, draws.count)) return { draws, weights, effective };
  const moved = moveDraws(source, ask);
  return { draws: moved.draws, weights: new Float64Array(moved.draws.count).fill(1), effective: moved.distinct };
}
