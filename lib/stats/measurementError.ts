import type { TwoWayComponents } from './twoWayMeanSquares';

/** Error of a single score in points. */
export type MeasurementError = { readonly agreement: number; readonly consistency: number };

/**
 * Standard error of measurement: agreement = √(rater + residual), level differences between raters included; consistency = √residual.
 * A negative rater component counts as 0. Source: de Vet, Terwee, Knol & Bouter 2006. Worked example: rater 5.24, residual 1.02 give 2.50 and 1.01.
 */
export function measurementError({ rater, residual }: TwoWayComponents): MeasurementError {
  return { agreement: Math.sqrt(Math.max(rater, 0) + residual), consistency: Math.sqrt(residual) };
}
