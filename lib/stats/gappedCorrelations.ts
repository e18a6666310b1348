import { additiveComponents } from './additiveComponents';
import { isUndefined, type CoefficientResult, type Undefined } from './coefficient';
import { fitMixedModel } from './fitMixedModel';
import type { IccResults } from './intraclassCorrelation';
import { intercept, labelledFactor, type MixedModel } from './mixedModel';
import { scoresOf, type ScoreTable } from './scoreTable';
import type { TwoWayComponents } from './twoWayMeanSquares';

/**
 * Intraclass correlations of a table with gaps, from REML components of score = mean + unit + rater + residual; k = columns of the table.
 * The one-way forms come from score = mean + unit + residual. No limits. Scores that are exactly unit + rater leave REML no residual:
 * then the components are the limit, the variances of those sums' parts. Source: McGraw & Wong 1996 (definitions); Patterson & Thompson 1971 (REML).
 */
export function gappedCorrelations(table: ScoreTable): IccResults {
  const k = table[0]?.length ?? 0;
  const cells = table.flatMap((row, unit) => row.flatMap((score, rater) => (score === null ? [] : [{ score, unit, rater }])));
  const units = labelledFactor('unit', cells.map(({ unit }) => unit));
  const raters = labelledFactor('rater', cells.map(({ rater }) => rater));
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
