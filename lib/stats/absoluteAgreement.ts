import { additiveFit, type AdditiveFit } from './additiveFit';
import type { CoefficientResult, UndefinedReason } from './coefficient';
import { canonicalTable, raterCount, scoresOf, varies, withoutEmpty, type ScoreTable } from './scoreTable';
import { createSeededRandom, seedFromNumbers, type SeededRandom } from './seededRandom';

const DRAWS = 2000;
const LEAST_UNITS = 5;

/**
 * ICC(A,1), how far single scores of different raters may stand for one another, levels included, with an interval that holds on small tables:
 * the generalised pivot of the two-way random model y_ij = μ + r_i + c_j + e_ij.
 *
 * With S the sums of squares and Q independent χ² on their degrees of freedom, σ²_e = S_e / Q_e, σ²_r = (S_r / Q_r − σ²_e) / k and σ²_c = (S_c / Q_c − σ²_e) / n,
 * negative ones 0; drawn 2,000 times, ρ = σ²_r / (σ²_r + σ²_c + σ²_e) has the interval's limits for quantiles and the middle for its value. With gaps k and n are harmonic means and S_r, S_c those of the unweighted means
 * of an additive fit, which is approximate. From five units up; the seed comes from the data.
 * Source: Tian and Cappelleri 2004 (Journal of Biopharmaceutical Statistics 14); Burdick and Graybill 1992, chapter 5, for the unweighted means.
 * Worked example: of Shrout and Fleiss's 6 × 4 table the limits are about 0.03 and 0.72, the point of which ICC(A,1) is 0.29.
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
