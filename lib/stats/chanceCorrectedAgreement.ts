import type { AgreementWeights } from './agreementWeights';
import type { Coefficient, Undefined, UndefinedReason } from './coefficient';
import { raterCount, scoresOf, type ScoreTable } from './scoreTable';
import { studentQuantile } from './studentDistribution';

/**
 * What chance would give. `gwet`: AC1 with identity weights, else AC2; `brennan-prediger`: every category as likely;
 * `fleiss`: the categories' shares among all ratings, generalised for gaps.
 */
export type ChanceModel = 'gwet' | 'brennan-prediger' | 'fleiss';
/** The scale's categories in order, used or not, and how much each two of them agree (`agreementWeights`). */
export type AgreementScale = { readonly categories: readonly number[]; readonly weights: AgreementWeights };

/** The coefficient with its standard error and its parts, agreement as a share from 0 to 1. */
export type AgreementDetail = Coefficient & {
  /** Null with one unit. Conditional on the raters; divides by units - 1. */
  readonly se: number | null;
  readonly percentAgreement: number;
  readonly chanceAgreement: number;
  /** Units with a score, and those with two. */
  readonly units: number;
  readonly unitsWithTwo: number;
};

/**
 * Chance-corrected agreement of any number of raters, gaps allowed: (p_a − p_e) / (1 − p_e).
 *
 * With r_ic how many of the r_i raters of unit i gave category c, of q, and w the weights:
 *   p_a = mean over units with r_i ≥ 2 of Σ_c r_ic (Σ_l w_cl r_il − 1) / (r_i (r_i − 1))
 *   π_c = mean over scored units of r_ic / r_i, units with one score too
 *   gwet              p_e = Σ w / (q (q − 1)) · Σ π_c (1 − π_c)
 *   brennan-prediger  p_e = Σ w / q²
 *   fleiss            p_e = Σ w_cl π_c π_l
 * The standard error is that of a mean of the units' influences; limits by Student's t on n − 1, not cut at 1.
 *
 * In: units × raters; every score one of the categories. Out: at most 1; 0 is chance.
 * Undefined: no scores, one rater, fewer than two categories, a score off the scale, no unit with two scores, or
 * p_e = 1.
 *
 * Source: Gwet 2008, Computing inter-rater reliability in the presence of high agreement, and 2014, Handbook of
 * Inter-Rater Reliability; Brennan & Prediger 1981; Fleiss 1971.
 *
 * @example Four raters, twelve units with gaps (published: p_a .818, AC1 .775, se .143).
 * const head = [[1, 1, null, 1], [2, 2, 3, 2], [3, 3, 3, 3], [3, 3, 3, 3], [2, 2, 2, 2], [1, 2, 3, 4]]
 * const tail = [[4, 4, 4, 4], [1, 1, 2, 1], [2, 2, 2, 2], [null, 5, 5, 5], [null, null, 1, 1], [null, null, 3, null]]
 * const scale = { categories: [1, 2, 3, 4, 5], weights: agreementWeights('identity', 5) }
 * const { value, se, percentAgreement } = chanceCorrectedAgreement([...head, ...tail], scale, 'gwet')
 * [value, se, percentAgreement] // [0.775, 0.143, 0.818]
 * chanceCorrectedAgreement([[1, 9]], scale, 'fleiss') // { "undefined": "off the scale" }
 */
export function chanceCorrectedAgreement(
  table: ScoreTable,
  scale: AgreementScale,
  model: ChanceModel,
): AgreementDetail | Undefined {
  const reason = whyNoAgreement(table, scale.categories);
  if (reason !== null) return { undefined: reason };
  const units = table.filter((row) => scoresOf(row).length > 0).map((row) => unitAgreement(row, scale));
  const n = units.length;
  const withTwo = units.filter(({ pairShare }) => pairShare !== null).length;
  const q = scale.categories.length;
  const prevalence = Array.from(
    { length: q },
    (_, c) => units.reduce((sum, { shares }) => sum + (shares[c] ?? 0), 0) / n,
  );
  const percentAgreement = units.reduce((sum, { pairShare }) => sum + (pairShare ?? 0), 0) / withTwo;
  const chance = chanceTerms({ prevalence, weights: scale.weights }, model);
  const chanceAgreement = chance.total;
  if (!(1 - chanceAgreement > 1e-12)) return { undefined: 'chance agreement is certain' };
  const value = (percentAgreement - chanceAgreement) / (1 - chanceAgreement);
  const influences = units.map(({ shares, pairShare }) => {
    const own = pairShare === null ? 0 : ((n / withTwo) * (pairShare - chanceAgreement)) / (1 - chanceAgreement);
    return own - (2 * (1 - value) * (chance.ofUnit(shares) - chanceAgreement)) / (1 - chanceAgreement) - value;
  });
  const se = n < 2 ? null : Math.sqrt(influences.reduce((sum, influence) => sum + influence ** 2, 0) / (n * (n - 1)));
  const reach = se === null ? null : studentQuantile(0.975, n - 1) * se;
  const limits = { low: reach === null ? null : value - reach, high: reach === null ? null : value + reach };
  return { value, ...limits, se, percentAgreement, chanceAgreement, units: n, unitsWithTwo: withTwo };
}

function whyNoAgreement(table: ScoreTable, categories: readonly number[]): UndefinedReason | null {
  const raters = raterCount(table);
  if (raters === 0) return 'no scores';
  if (raters === 1) return 'one rater';
  if (categories.length < 2) return 'fewer than two categories';
  if (table.flat().some((score) => score !== null && !categories.includes(score))) return 'off the scale';
  return table.every((row) => scoresOf(row).length < 2) ? 'fewer than two scores in every unit' : null;
}

/** A unit's share of each category, and the weighted share of its agreeing pairs (null with one score). */
type UnitAgreement = { readonly shares: readonly number[]; readonly pairShare: number | null };

function unitAgreement(row: readonly (number | null)[], { categories, weights }: AgreementScale): UnitAgreement {
  const scores = scoresOf(row);
  const r = scores.length;
  const counts = categories.map((category) => scores.filter((score) => score === category).length);
  const shares = counts.map((count) => count / r);
  if (r < 2) return { shares, pairShare: null };
  const pairs = counts.reduce((sum, count, c) => {
    const weighted = counts.reduce((part, other, l) => part + other * (weights[c]?.[l] ?? 0), 0);
    return sum + count * (weighted - 1);
  }, 0);
  return { shares, pairShare: pairs / (r * (r - 1)) };
}

/**
 * Chance agreement, and the linear form in one unit's shares whose mean it is (its influence on the standard error).
 */
type ChanceTerms = { readonly total: number; ofUnit(shares: readonly number[]): number };

function chanceTerms(
  { prevalence, weights }: { prevalence: readonly number[]; weights: AgreementWeights },
  model: ChanceModel,
): ChanceTerms {
  const q = prevalence.length;
  const allWeights = weights.flat().reduce((sum, weight) => sum + weight, 0);
  const dot = (shares: readonly number[], terms: readonly number[]): number =>
    shares.reduce((sum, share, c) => sum + share * (terms[c] ?? 0), 0);
  if (model === 'brennan-prediger') return { total: allWeights / (q * q), ofUnit: () => allWeights / (q * q) };
  const terms =
    model === 'gwet'
      ? prevalence.map((share) => (allWeights / (q * (q - 1))) * (1 - share))
      : prevalence.map((_, c) =>
          prevalence.reduce(
            (sum, share, l) => sum + (share * ((weights[c]?.[l] ?? 0) + (weights[l]?.[c] ?? 0))) / 2,
            0,
          ),
        );
  return { total: dot(prevalence, terms), ofUnit: (shares) => dot(shares, terms) };
}
