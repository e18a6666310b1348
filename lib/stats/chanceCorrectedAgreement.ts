import type { AgreementWeights } from './agreementWeights';
import type { Coefficient, Undefined, UndefinedReason } from './coefficient';
import { raterCount, scoresOf, type ScoreTable } from './scoreTable';
import { studentQuantile } from './studentDistribution';

/** What chance would give. gwet: AC1 with identity weights, else AC2; brennan-prediger: 1 / categories; fleiss: generalised for gaps. */
export type ChanceModel = 'gwet' | 'brennan-prediger' | 'fleiss';
export type AgreementScale = { readonly categories: readonly number[]; readonly weights: AgreementWeights };

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
 * (observed - chance) / (1 - chance) agreement of any number of raters, gaps allowed; weighted observed agreement is the mean over units with two
 * scores or more of the share of agreeing pairs. Units with one score still count for the prevalences. The interval uses t and is not cut at 1.
 * Undefined: no scores, one rater, no unit with two scores, a score off the scale, or chance agreement 1.
 * Source: Gwet 2008 and 2014 (AC1, AC2, generalised Fleiss, standard errors); Brennan & Prediger 1981; Fleiss 1971.
 * Worked example: Gwet's 4 raters × 12 units: percent agreement .818, AC1 .775 (SE .143).
 */
export function chanceCorrectedAgreement(table: ScoreTable, scale: AgreementScale, model: ChanceModel): AgreementDetail | Undefined {
  const reason = whyNoAgreement(table, scale.categories);
  if (reason !== null) return { undefined: reason };
  const units = table.filter((row) => scoresOf(row).length > 0).map((row) => unitAgreement(row, scale));
  const n = units.length;
  const withTwo = units.filter(({ pairShare }) => pairShare !== null).length;
  const q = scale.categories.length;
  const prevalence = Array.from({ length: q }, (_, c) => units.reduce((sum, { shares }) => sum + (shares[c] ?? 0), 0) / n);
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

/** Chance agreement, and the linear form in one unit's shares whose mean it is (its influence on the standard error). */
type ChanceTerms = { readonly total: number; ofUnit(shares: readonly number[]): number };

function chanceTerms({ prevalence, weights }: { prevalence: readonly number[]; weights: AgreementWeights }, model: ChanceModel): ChanceTerms {
  const q = prevalence.length;
  const allWeights = weights.flat().reduce((sum, weight) => sum + weight, 0);
  const dot = (shares: readonly number[], terms: readonly number[]): number => shares.reduce((sum, share, c) => sum + share * (terms[c] ?? 0), 0);
  if (model === 'brennan-prediger') return { total: allWeights / (q * q), ofUnit: () => allWeights / (q * q) };
  const terms =
    model === 'gwet'
      ? prevalence.map((share) => (allWeights / (q * (q - 1))) * (1 - share))
      : prevalence.map((_, c) => prevalence.reduce((sum, share, l) => sum + (share * ((weights[c]?.[l] ?? 0) + (weights[l]?.[c] ?? 0))) / 2, 0));
  return { total: dot(prevalence, terms), ofUnit: (shares) => dot(shares, terms) };
}
