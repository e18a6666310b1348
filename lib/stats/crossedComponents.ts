import { isUndefined, type Undefined } from './coefficient';
import type { StudyComponents } from './decisionStudy';
import { fitMixedModel, type MixedModelFit } from './fitMixedModel';
import { intercept, interactionFactor, labelledFactor } from './mixedModel';

/**
 * One score of a crossed design: who or what was scored (target), by whom, on what. Labels are opaque; 1 and '1'
 * are one.
 */
export type CrossedScore = {
  readonly target: string | number;
  readonly rater: string | number;
  readonly criterion: string | number;
  readonly value: number;
};

/** The estimated variance components in squared points, and the fit they come from. */
export type CrossedComponents = {
  /**
   * A component that cannot be told from the residual or from a simpler one (a facet with one level, say) is absent.
   */
  readonly components: StudyComponents;
  readonly fit: MixedModelFit;
};

/**
 * REML variance components of targets × raters × criteria with any cells missing.
 *
 * Model, all random, of target p, rater j, criterion c:
 *   y_pjc = μ + π_p + β_j + κ_c + (πβ)_pj + (πκ)_pc + (βκ)_jc + ε_pjc
 *   target σ²_π, rater σ²_β (level), criterion σ²_κ (difficulty), targetRater σ²_πβ (liking),
 *   targetCriterion σ²_πκ (profile), raterCriterion σ²_βκ, residual σ²_ε, which holds the three-way interaction too.
 *
 * In: one record for each score; their order does not matter. Out: squared points, ≥ 0. A facet with one level, its
 * interactions and whatever else cannot be told from the residual are left out.
 * Undefined as `fitMixedModel`, with fewer than two targets, or when targets cannot be told apart at all.
 *
 * Source: Cronbach, Gleser, Nanda & Rajaratnam 1972; Brennan 2001, Generalizability Theory (model);
 * Patterson & Thompson 1971 (REML).
 *
 * @example Three targets, two raters, one criterion: mean squares 15.17, 1.5 and 0.5.
 * const scores = [[1, 2], [4, 4], [6, 8]]
 * const rows = scores.flatMap((row, target) => row.map((value, rater) => ({ target, rater, criterion: 'c', value })))
 * crossedComponents(rows).components // { "target": 7.3333, "rater": 0.3333, "residual": 0.5000 }
 * crossedComponents(rows.slice(0, 2)) // { "undefined": "fewer than two units" }
 */
export function crossedComponents(scores: readonly CrossedScore[]): CrossedComponents | Undefined {
  if (scores.length === 0) return { undefined: 'no scores' };
  const ordered = [...scores].sort(byLabels);
  const target = labelledFactor(
    'target',
    ordered.map((score) => score.target),
  );
  const rater = labelledFactor(
    'rater',
    ordered.map((score) => score.rater),
  );
  const criterion = labelledFactor(
    'criterion',
    ordered.map((score) => score.criterion),
  );
  if (target.levelCount < 2) return { undefined: 'fewer than two units' };
  const factors = [
    target,
    rater,
    criterion,
    interactionFactor('targetRater', [target, rater]),
    interactionFactor('targetCriterion', [target, criterion]),
    interactionFactor('raterCriterion', [rater, criterion]),
  ];
  const fit = fitMixedModel({
    response: ordered.map(({ value }) => value),
    fixed: [intercept(ordered.length)],
    factors,
  });
  if (isUndefined(fit)) return fit;
  if (fit.factors[0]?.estimable !== true) return { undefined: 'too few observations' };
  const found = Object.fromEntries(
    fit.factors.filter(({ estimable }) => estimable).map(({ name, variance }) => [name, variance]),
  );
  return { components: { target: 0, ...found, residual: fit.residual }, fit };
}

function byLabels(a: CrossedScore, b: CrossedScore): number {
  return (
    compare(a.target, b.target) || compare(a.rater, b.rater) || compare(a.criterion, b.criterion) || a.value - b.value
  );
}

function compare(a: string | number, b: string | number): number {
  const [left, right] = [String(a), String(b)];
  return left === right ? 0 : left < right ? -1 : 1;
}
