/** A coefficient with its interval; null limits mean that no interval is given for it. */
export type Coefficient = { readonly value: number; readonly low: number | null; readonly high: number | null };

/** Why a figure does not exist for these data (ST1). Closed: a screen words each one. */
export type UndefinedReason =
  | 'no scores'
  | 'one rater'
  | 'fewer than two units'
  | 'fewer than two scores in every unit'
  | 'no variation'
  | 'no variation between units'
  | 'missing cells'
  | 'off the scale'
  | 'fewer than two categories'
  | 'chance agreement is certain'
  | 'no pair of raters with a defined value'
  | 'ratio needs scores of one sign'
  | 'fewer than two comparisons in common'
  | 'items not connected'
  | 'an item always or never wins'
  | 'fewer than two items'
  | 'no ties'
  | 'only ties'
  | 'too few observations'
  | 'fixed effects not estimable'
  | 'no residual variation'
  | 'no convergence';

/** A statistic that does not exist for these data, with the reason; never NaN, never an exception (ST1). */
export type Undefined = { readonly undefined: UndefinedReason };
/** A coefficient, or why there is none. */
export type CoefficientResult = Coefficient | Undefined;

/**
 * Whether a result is a reason instead of a value.
 *
 * @example
 * isUndefined({ undefined: 'one rater' }) // true
 * isUndefined({ value: 0.5, low: null, high: null }) // false
 */
export function isUndefined<T extends object>(result: T | Undefined): result is Undefined {
  return 'undefined' in result;
}
