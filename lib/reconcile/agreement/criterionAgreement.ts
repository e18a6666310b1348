import { absoluteAgreement } from '#lib/stats/absoluteAgreement';
import { agreementWeights, type WeightKind } from '#lib/stats/agreementWeights';
import { chanceCorrectedAgreement, type AgreementDetail } from '#lib/stats/chanceCorrectedAgreement';
import { isUndefined, type CoefficientResult, type Undefined } from '#lib/stats/coefficient';
import { coefficientInterval } from '#lib/stats/coefficientInterval';
import { intraclassCorrelations, type IccResults } from '#lib/stats/intraclassCorrelation';
import { resampledW } from '#lib/stats/kendallW';
import { resampledAlpha, type AlphaMetric } from '#lib/stats/krippendorffAlpha';
import { lightCoefficient, lightKappa } from '#lib/stats/lightKappa';
import { resampledPercent } from '#lib/stats/percentAgreement';
import type { ResampledStatistic } from '#lib/stats/resampledStatistic';
import { canonicalTable, type ScoreTable } from '#lib/stats/scoreTable';

/** Every coefficient of one criterion, with 95% limits where there are any; each is defined and sourced in the file that computes it. */
export type CriterionAgreement = {
  readonly alpha: Readonly<Record<'nominal' | 'ordinal' | 'interval', CoefficientResult>>;
  readonly icc: IccResults;
  readonly kendallW: CoefficientResult;
  /** Gwet's AC1; AC2 and Light's κ with quadratic weights over the scale's steps; Fleiss' κ generalised for gaps. */
  readonly acOne: CoefficientResult;
  readonly acTwo: CoefficientResult;
  readonly percent: CoefficientResult;
  /** ICC(A,1) with the interval that decides the word for agreement; not printed by the command. */
  readonly absolute: CoefficientResult;
  readonly lightKappa: CoefficientResult;
  readonly fleissKappa: CoefficientResult;
};

/**
 * @param scores one criterion's, a row a puppy, a column an evaluator who judged it; signed degrees where it is two-sided.
 * @param steps the scale's; a score between two of them leaves κ, AC and percent undefined.
 */
export function criterionAgreement(scores: ScoreTable, steps: readonly number[]): CriterionAgreement {
  const table = canonicalTable(scores);
  const offScale = table.flat().some((score) => score !== null && !steps.includes(score));
  const scaled = (kind: WeightKind) => ({ categories: steps, weights: agreementWeights(kind, steps.length) });
  return {
    alpha: {
      nominal: alphaOf(table, 'nominal'),
      ordinal: alphaOf(table, 'ordinal'),
      interval: alphaOf(table, 'interval'),
    },
    icc: intraclassCorrelations(table),
    kendallW: resampled(resampledW(table), table),
    acOne: plain(chanceCorrectedAgreement(table, scaled('identity'), 'gwet')),
    acTwo: plain(chanceCorrectedAgreement(table, scaled('quadratic'), 'gwet')),
    percent: offScale ? { undefined: 'off the scale' } : resampled(resampledPercent(table), table),
    absolute: absoluteAgreement(table),
    lightKappa: lightCoefficient(lightKappa(table, scaled('quadratic'))),
    fleissKappa: plain(chanceCorrectedAgreement(table, scaled('identity'), 'fleiss')),
  };
}

/** Krippendorff's α with its bootstrap interval. */
export function alphaOf(table: ScoreTable, metric: AlphaMetric): CoefficientResult {
  return resampled(resampledAlpha(table, metric), table);
}

function resampled(statistic: ResampledStatistic | Undefined, table: ScoreTable): CoefficientResult {
  const found = coefficientInterval(statistic, table);
  return isUndefined(found) ? found : { value: found.value, low: found.low, high: found.high };
}

function plain(found: AgreementDetail | Undefined): CoefficientResult {
  return isUndefined(found) ? found : { value: found.value, low: found.low, high: found.high };
}
