import { additiveComponents } from './additiveComponents';
import { isUndefined, type CoefficientResult, type Undefined, type UndefinedReason } from './coefficient';
import { fQuantile } from './fDistribution';
import { fitMixedModel } from './fitMixedModel';
import { intercept, labelledFactor, type MixedModel } from './mixedModel';
import { canonicalTable, isComplete, raterCount, scoresOf, varies, withoutEmpty, type ScoreTable } from './scoreTable';
import { twoWayMeanSquares, type TwoWayComponents, type TwoWayMeanSquares } from './twoWayMeanSquares';

/**
 * Which intraclass correlation, in McGraw & Wong's names. Shrout & Fleiss: '1' = ICC(1,1), 'A,1' = ICC(2,1),
 * 'C,1' = ICC(3,1); 'k', 'A,k' and 'C,k' are the same of the mean of k raters.
 */
export type IccForm = '1' | 'A,1' | 'C,1' | 'k' | 'A,k' | 'C,k';
/** The six forms in the order in which tables show them. */
export const ICC_FORMS: readonly IccForm[] = ['1', 'A,1', 'C,1', 'k', 'A,k', 'C,k'];
/** Each form's value with its limits, or why it has none. */
export type IccResults = Readonly<Record<IccForm, CoefficientResult>>;

/**
 * Intraclass correlations: the share of the variance of scores (or of their mean over k raters) that lies between
 * units.
 *
 * Model, of unit i and rater j:
 *   two-way   y_ij = μ + r_i + c_j + e_ij,  with σ²_r of units, σ²_c of raters' levels, σ²_e of the rest
 *   one-way   y_ij = μ + r_i + w_ij,        raters not told apart
 *   A,1 = σ²_r / (σ²_r + σ²_c + σ²_e)       agreement: a difference of level is error
 *   C,1 = σ²_r / (σ²_r + σ²_e)              consistency: it is not
 *   1   = σ²_r / (σ²_r + σ²_w)
 * and with the error divided by k for the mean of k raters. Negative estimates are kept.
 *
 * Complete table: from mean squares (`iccPoints`) with F limits; those of 'A' by Satterthwaite's degrees of
 * freedom. Table with gaps: REML components, k = raters in the design, the one-way forms from a one-way model; no
 * limits.
 *
 * In: units × raters in points, and the level of the limits. Out: at most 1.
 * Undefined: no scores, one rater, fewer than two units, no unit with two scores, no variation, or 0 in a
 * denominator.
 *
 * Source: Shrout & Fleiss 1979, Intraclass correlations: uses in assessing rater reliability; McGraw & Wong 1996,
 * Forming inferences about some intraclass correlation coefficients; Patterson & Thompson 1971 (REML).
 *
 * @example Shrout & Fleiss's 6 × 4 table, published as .17, .29, .71 and .44, .62, .91.
 * const table = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]
 * const found = intraclassCorrelations(table)
 * ICC_FORMS.map((form) => found[form].value) // [0.17, 0.29, 0.71, 0.44, 0.62, 0.91]
 * [found['C,1'].low, found['C,1'].high] // [0.342, 0.946]
 * intraclassCorrelations([[1], [2]])['1'] // { "undefined": "one rater" }
 */
export function intraclassCorrelations(table: ScoreTable, level = 0.95): IccResults {
  const ordered = withoutEmpty(canonicalTable(table));
  const reason = whyNoIcc(ordered);
  if (reason !== null) return everyForm({ undefined: reason });
  return isComplete(ordered) ? completeCorrelations(ordered, level) : gappedCorrelations(ordered);
}

function whyNoIcc(table: ScoreTable): UndefinedReason | null {
  if (table.length === 0) return 'no scores';
  if (raterCount(table) < 2) return 'one rater';
  if (table.length < 2) return 'fewer than two units';
  if (table.every((row) => scoresOf(row).length < 2)) return 'fewer than two scores in every unit';
  const scores = table.flat().filter((score) => score !== null);
  return varies(scores) ? null : 'no variation';
}

function completeCorrelations(table: ScoreTable, level: number): IccResults {
  const squares = twoWayMeanSquares(table);
  const limits = {
    1: oneWayLimits(squares, level),
    A: agreementLimits(squares, level),
    C: consistencyLimits(squares, level),
  };
  const points = iccPoints(squares);
  const k = squares.raters;
  const single = (form: IccForm, [low, high]: Limits): CoefficientResult => withLimits(points[form], [low, high]);
  const mean = (form: IccForm, [low, high]: Limits): CoefficientResult =>
    withLimits(points[form], [steppedUp(low, k), steppedUp(high, k)]);
  return {
    '1': single('1', limits[1]),
    'A,1': single('A,1', limits.A),
    'C,1': single('C,1', limits.C),
    k: mean('k', limits[1]),
    'A,k': mean('A,k', limits.A),
    'C,k': mean('C,k', limits.C),
  };
}

/**
 * Point estimates of the six forms from the mean squares; null where the denominator is 0.
 *
 *   1   = (MSR − MSW) / (MSR + (k−1) MSW)                         k   = (MSR − MSW) / MSR
 *   A,1 = (MSR − MSE) / (MSR + (k−1) MSE + k (MSC − MSE) / n)     A,k = (MSR − MSE) / (MSR + (MSC − MSE) / n)
 *   C,1 = (MSR − MSE) / (MSR + (k−1) MSE)                         C,k = (MSR − MSE) / MSR
 *
 * Source: Shrout & Fleiss 1979; McGraw & Wong 1996, table 4.
 *
 * @example From the published mean squares.
 * const points = iccPoints({ units: 6, raters: 4, between: 11.24, raterSquare: 32.49, error: 1.02, within: 6.26 })
 * points // { "1": 0.17, "A,1": 0.29, "C,1": 0.71, "k": 0.44, "A,k": 0.62, "C,k": 0.91 }
 */
export function iccPoints({
  between,
  raterSquare,
  error,
  within,
  units: n,
  raters: k,
}: TwoWayMeanSquares): Readonly<Record<IccForm, number | null>> {
  return {
    '1': quotient(between - within, between + (k - 1) * within),
    'A,1': quotient(between - error, between + (k - 1) * error + (k * (raterSquare - error)) / n),
    'C,1': quotient(between - error, between + (k - 1) * error),
    k: quotient(between - within, between),
    'A,k': quotient(between - error, between + (raterSquare - error) / n),
    'C,k': quotient(between - error, between),
  };
}

type Limits = readonly [number | null, number | null];

/** F = MSR / MSW against F(n-1, n(k-1)). */
function oneWayLimits({ between, within, units: n, raters: k }: TwoWayMeanSquares, level: number): Limits {
  return ratioLimits({ numerator: between, denominator: within, df1: n - 1, df2: n * (k - 1), k }, level);
}

function consistencyLimits({ between, error, units: n, raters: k }: TwoWayMeanSquares, level: number): Limits {
  return ratioLimits({ numerator: between, denominator: error, df1: n - 1, df2: (n - 1) * (k - 1), k }, level);
}

type RatioQuestion = {
  readonly numerator: number;
  readonly denominator: number;
  readonly df1: number;
  readonly df2: number;
  readonly k: number;
};

/** (F/q - 1) / (F/q + k - 1), written without dividing by a denominator that may be 0. */
function ratioLimits({ numerator, denominator, df1, df2, k }: RatioQuestion, level: number): Limits {
  const tail = (1 + level) / 2;
  const below = fQuantile(tail, { df1, df2 }) * denominator;
  const above = denominator / fQuantile(tail, { df1: df2, df2: df1 });
  return [
    quotient(numerator - below, numerator + (k - 1) * below),
    quotient(numerator - above, numerator + (k - 1) * above),
  ];
}

/** Satterthwaite degrees of freedom (Shrout & Fleiss 1979; McGraw & Wong 1996, table 7). */
function agreementLimits(squares: TwoWayMeanSquares, level: number): Limits {
  const { between, raterSquare, error, units: n, raters: k } = squares;
  const icc = iccPoints(squares)['A,1'];
  const ratio = quotient(raterSquare, error);
  if (icc === null || ratio === null) return error === 0 && raterSquare === 0 ? [1, 1] : [null, null];
  const rest = n * (1 + (k - 1) * icc) - k * icc;
  const df = quotient((k - 1) * (n - 1) * (k * icc * ratio + rest) ** 2, (n - 1) * (k * icc * ratio) ** 2 + rest ** 2);
  if (df === null || !(df > 0)) return [null, null];
  const tail = (1 + level) / 2;
  const lower = fQuantile(tail, { df1: n - 1, df2: df });
  const upper = fQuantile(tail, { df1: df, df2: n - 1 });
  const spread = k * raterSquare + (k * n - k - n) * error;
  return [
    quotient(n * (between - lower * error), lower * spread + n * between),
    quotient(n * (upper * between - error), spread + n * upper * between),
  ];
}

/** Spearman–Brown: from one rater to the mean of k. */
function steppedUp(limit: number | null, k: number): number | null {
  return limit === null ? null : quotient(k * limit, 1 + (k - 1) * limit);
}

function withLimits(value: number | null, [low, high]: Limits): CoefficientResult {
  return value === null ? { undefined: 'no variation between units' } : { value, low, high };
}

function quotient(numerator: number, denominator: number): number | null {
  const value = numerator / denominator;
  return denominator !== 0 && Number.isFinite(value) ? value : null;
}

function everyForm(result: CoefficientResult): IccResults {
  return { '1': result, 'A,1': result, 'C,1': result, k: result, 'A,k': result, 'C,k': result };
}

/**
 * Intraclass correlations of a table with gaps, from REML components of score = mean + unit + rater + residual; k =
 * columns of the table. The one-way forms come from score = mean + unit + residual. No limits. Scores that are exactly
 * unit + rater leave REML no residual: then the components are the limit, the variances of those sums' parts. Source:
 * McGraw & Wong 1996 (definitions); Patterson & Thompson 1971 (REML).
 */
function gappedCorrelations(table: ScoreTable): IccResults {
  const k = table[0]?.length ?? 0;
  const cells = table.flatMap((row, unit) =>
    row.flatMap((score, rater) => (score === null ? [] : [{ score, unit, rater }])),
  );
  const units = labelledFactor(
    'unit',
    cells.map(({ unit }) => unit),
  );
  const raters = labelledFactor(
    'rater',
    cells.map(({ rater }) => rater),
  );
  const base = { response: cells.map(({ score }) => score), fixed: [intercept(cells.length)] };
  const twoWay = additiveComponents(table) ?? components({ ...base, factors: [units, raters] });
  const sameWithin = table.every((row) => new Set(scoresOf(row)).size === 1);
  const oneWay = sameWithin ? { unit: 1, rater: 0, residual: 0 } : components({ ...base, factors: [units] });
  return {
    '1': shareOf(oneWay, (c) => c.residual),
    'A,1': shareOf(twoWay, (c) => c.rater + c.residual),
    'C,1': shareOf(twoWay, (c) => c.residual),
    k: shareOf(oneWay, (c) => c.residual / k),
    'A,k': shareOf(twoWay, (c) => (c.rater + c.residual) / k),
    'C,k': shareOf(twoWay, (c) => c.residual / k),
  };
}

function components(model: MixedModel): TwoWayComponents | Undefined {
  const fit = fitMixedModel(model);
  if (isUndefined(fit)) return fit;
  if (fit.factors.some(({ estimable }) => !estimable)) return { undefined: 'too few observations' };
  return { unit: fit.factors[0]?.variance ?? 0, rater: fit.factors[1]?.variance ?? 0, residual: fit.residual };
}

function shareOf(found: TwoWayComponents | Undefined, error: (c: TwoWayComponents) => number): CoefficientResult {
  if (isUndefined(found)) return found;
  const whole = found.unit + error(found);
  return whole > 0 ? { value: found.unit / whole, low: null, high: null } : { undefined: 'no variation' };
}
