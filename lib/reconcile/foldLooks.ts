import type { SeededRandom } from '#lib/stats/seededRandom';
import type { DrawSource, JointDraws } from './jointDraws';
import { lookLifts, lookLogLikelihood, type LookScale } from './lookLikelihood';
import { moveDraws } from './moveDraws';
import { effectiveDraws, relativeWeights } from './relativeWeights';

/** Joint draws with the weights the second looks give them (summing to their number), and how many they are worth. */
export type FoldedDraws = { readonly draws: JointDraws; readonly weights: Float64Array; readonly effective: number };

/**
 * Weighs the joint draws by the likelihood of the second looks, those of one value of the SDs among themselves, so that the shares of the SDs
 * stay as the scores have them (ST5). When too few draws carry the weight (the looks contradict the scores, or are many), fresh
 * draws are moved to where both agree instead.
 */
export function foldLooks(source: DrawSource, draws: JointDraws, ask: { readonly scale: LookScale; readonly random: SeededRandom }): FoldedDraws {
  const { plan } = source;
  if (plan.looks.length === 0) return { draws, weights: new Float64Array(draws.count).fill(1), effective: draws.count };
  const lifts = lookLifts(plan, ask.scale, draws);
  const weights = new Float64Array(draws.count);
  let effective = 0;
  for (const [start, end] of runsOfOnePoint(source)) {
    const logs = Float64Array.from({ length: end - start }, (_, at) => lookLogLikelihood(plan, ask.scale, { draws, row: start + at, lifts }));
    const own = relativeWeights(logs, 1);
    weights.set(own, start);
    effective += effectiveDraws(own);
  }
  if (effective >= Math.min(ask.scale.settings.leastEffective, draws.count)) return { draws, weights, effective };
  const moved = moveDraws(source, { ...ask, lifts });
  return { draws: moved, weights: new Float64Array(moved.count).fill(1), effective: moved.count };
}

/** First row and the row after the last of each run of draws at one value of the SDs; a point makes two rows. */
function runsOfOnePoint({ points }: DrawSource): [start: number, end: number][] {
  const starts = points.flatMap((point, at) => (at === 0 || point !== points[at - 1] ? [2 * at] : []));
  return starts.map((start, at) => [start, starts[at + 1] ?? 2 * points.length]);
}
