import type { CoefficientResult } from '#lib/stats/coefficient';

export type AgreementBand = 'low' | 'medium' | 'high' | 'too-few';

/**
 * A plain word for how far a panel agrees, decided on an interval that holds (`absoluteAgreement`) and never on a point:
 * a litter is too small for a point to be trusted. High: all of it at 0.6 or above. Low: all of it at 0.4 or below.
 * Medium: in between and no wider than 0.6. Else, and without an interval: too few data.
 * The cut-offs are this project's own; published tables of such cut-offs disagree with each other.
 * Example: { value: 0.7, low: 0.1, high: 0.9 } is too-few.
 */
export function agreementBand(coefficient: CoefficientResult | undefined): AgreementBand {
  if (!coefficient || 'undefined' in coefficient || coefficient.low === null || coefficient.high === null)
    return 'too-few';
  const { low, high } = coefficient;
  if (low >= 0.6) return 'high';
  if (high <= 0.4) return 'low';
  return high - low <= 0.6 ? 'medium' : 'too-few';
}
