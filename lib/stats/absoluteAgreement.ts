import { additiveFit, type AdditiveFit } from './additiveFit';
import type { CoefficientResult, UndefinedReason } from './coefficient';
import { canonicalTable, raterCount, scoresOf, varies, withoutEmpty, type ScoreTable } from './scoreTable';
import { createSeededRandom, seedFromNumbers, type SeededRandom } from './seededRandom';

const DRAWS = 2000;
const LEAST_UNITS = 5;

/**
 * ICC(A,1) with an interval that holds on small tables: how far single scores of different raters may stand for one
 * another, differences of level included.
 *
 * Model: y_ij = μ + r_i + c_j + e_ij, all random, of units i, raters j; ρ = σ²_r / (σ²_r + σ²_c + σ²_e).
 *
 * The generalised pivot: with S the sums of squares of n units and k raters, and Q independent χ² on their degrees
 * of freedom,
 *   σ²_e = S_e / Q_e,   σ²_r = (S_r / Q_r − σ²_e) / k,   σ²_c = (S_c / Q_c − σ²_e) / n,   negative ones 0,
 * and ρ from those, drawn 2,000 times: the limits are its quantiles, the value its median. With gaps, k and n are
 * harmonic means and S_r, S_c those of the unweighted means of an additive fit, which is approximate. The seed
 * comes from the data.
 *
 * In: units × raters in points, gaps allowed; `level` of the interval. Out: 0 … 1.
 * Undefined: no scores, one rater, fewer than five units with two scores, no variation, or no degree of freedom
 * left over.
 *
 * Source: Tian & Cappelleri 2004, Journal of Biopharmaceutical Statistics 14; Burdick & Graybill 1992, Confidence
 * Intervals on Variance Components, chapter 5, for the unweighted means.
 *
 * @example Shrout & Fleiss's 6 × 4 table, whose ICC(A,1) is 0.29: the limits leave nearly all open.
 * const table = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]
 * absoluteAgreement(table) // { "value": 0.2639, "low": 0.0296, "high": 0.7211 }
 * absoluteAgreement(table.slice(0, 4)) // { "undefined": "too few observations" }
 */
export function absoluteAgreement(scores: ScoreTable, level = 0.95): CoefficientResult {
  const table = withoutEmpty(canonicalTable(scores));
  const reason = whyNone(table);
  if (reason !== null) return { undefined: reason };
  const fit = additiveFit(table);
  if (fit === null) return { undefined: 'too few observations' };
  const random = createSeededRandom(seedFromNumbers(table.flat().map((score) => score ?? -1e6)));
  const drawn = Float64Array.from({ length: DRAWS }, () => drawnCorrelation(fit, random)).sort();
  const quantile = (share: number) => drawn[Math.min(DRAWS - 1, Math.max(0, Math.round(share * DRAWS - 0.5)))] ?? 0;
  return { value: quantile(0.5), low: quantile((1 - level) / 2), high: quantile((1 + level) / 2) };
}

function whyNone(table: ScoreTable): UndefinedReason | null {
  if (table.length === 0) return 'no scores';
  if (raterCount(table) < 2) return 'one rater';
  if (table.filter((row) => scoresOf(row).length > 1).length < LEAST_UNITS) return 'too few observations';
  return varies(table.flat().filter((score) => score !== null)) ? null : 'no variation';
}

function drawnCorrelation({ units, raters, error }: AdditiveFit, random: SeededRandom): number {
  const drawn = ({ squares, degrees }: AdditiveFit['error']) => squares / (2 * random.gamma(degrees / 2));
  const residual = drawn(error);
  const unit = Math.max(0, drawn(units) - residual) / units.each;
  const rater = Math.max(0, drawn(raters) - residual) / raters.each;
  const total = unit + rater + residual;
  return total > 0 ? unit / total : 0;
}
