import { isUndefined, type Undefined } from './coefficient';
import type { StudyComponents } from './decisionStudy';
import { fitMixedModel, type MixedModelFit } from './fitMixedModel';
import { intercept, interactionFactor, labelledFactor } from './mixedModel';

/** One score of a crossed design; labels are opaque. */
export type CrossedScore = { readonly target: string | number; readonly rater: string | number; readonly criterion: string | number; readonly value: number };

export type CrossedComponents = {
  /** A component that cannot be told from the residual or from a simpler one (a facet with one level, say) is absent. */
  readonly components: StudyComponents;
  readonly fit: MixedModelFit;
};

/**
 * REML components of targets × raters × criteria, everything random, all two-way interactions, any cells missing; the three-way interaction is the residual.
 * The result does not depend on the order of the scores. Undefined as `fitMixedModel`, or when targets cannot be told apart at all.
 * Source: Brennan 2001 (model); Patterson & Thompson 1971 (REML). Worked example: Brennan's synthetic 10 × 2 × 4 data: target 0.553, residual 0.935.
 */
export function crossedComponents(scores: readonly CrossedScore[]): CrossedComponents | Undefined {
  if (scores.length === 0) return { undefined: 'no scores' };
  const ordered = [...scores].sort(byLabels);
  const target = labelledFactor('target', ordered.map((score) => score.target));
  const rater = labelledFactor('rater', ordered.map((score) => score.rater));
  const criterion = labelledFactor('criterion', ordered.map((score) => score.criterion));
  if (target.levelCount < 2) return { undefined: 'fewer than two units' };
  const factors = [
    target,
    rater,
    criterion,
    interactionFactor('targetRater', [target, rater]),
    interactionFactor('targetCriterion', [target, criterion]),
    interactionFactor('raterCriterion', [rater, criterion]),
  ];
  const fit = fitMixedModel({ response: ordered.map(({ value }) => value), fixed: [intercept(ordered.length)], factors });
  if (isUndefined(fit)) return fit;
  if (fit.factors[0]?.estimable !== true) return { undefined: 'too few observations' };
  const found = Object.fromEntries(fit.factors.filter(({ estimable }) => estimable).map(({ name, variance }) => [name, variance]));
  return { components: { target: 0, ...found, residual: fit.residual }, fit };
}

function byLabels(a: CrossedScore, b: CrossedScore): number {
  return compare(a.target, b.target) || compare(a.rater, b.rater) || compare(a.criterion, b.criterion) || a.value - b.value;
}

function compare(a: string | number, b: string | number): number {
  const [left, right] = [String(a), String(b)];
  return left === right ? 0 : left < right ? -1 : 1;
}
