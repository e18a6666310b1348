import type { TwoWayComponents } from './twoWayMeanSquares';

/**
 * Standard errors of a single score, in points of the scale: `agreement` for what the score says as a level,
 * `consistency` for comparing units that the same rater scored.
 */
export type MeasurementError = { readonly agreement: number; readonly consistency: number };

/**
 * Standard error of measurement: how far one rater's score of a unit scatters about that unit's own level.
 *
 * agreement = √(σ²_rater + σ²_residual), differences of level between raters included;
 * consistency = √σ²_residual, those differences left out.
 *
 * In: variance components in squared points. Out: points. A negative estimate of the raters' component counts as 0.
 *
 * Source: de Vet, Terwee, Knol & Bouter 2006, When to use agreement versus reliability measures.
 *
 * @example The components of Shrout & Fleiss's 6 × 4 table: raters 5.24, residual 1.02.
 * measurementError({ unit: 2.56, rater: 5.24, residual: 1.02 }) // { "agreement": 2.50, "consistency": 1.01 }
 */
export function measurementError({ rater, residual }: TwoWayComponents): MeasurementError {
  return { agreement: Math.sqrt(Math.max(rater, 0) + residual), consistency: Math.sqrt(residual) };
}
