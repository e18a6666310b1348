import type { Undefined } from './coefficient';

/** Variance components of a crossed design targets × raters × criteria with one score a cell; a component left out counts as 0. */
export type StudyComponents = {
  readonly target: number;
  readonly rater?: number;
  readonly criterion?: number;
  readonly targetRater?: number;
  readonly targetCriterion?: number;
  readonly raterCriterion?: number;
  readonly residual: number;
};

export type DecisionStudy = {
  readonly raters: number;
  readonly criteria: number;
  /** Error variance of a target's mean in comparisons between targets. */
  readonly relativeError: number;
  /** Error variance of a target's mean as a level: differences between raters and between criteria count too. */
  readonly absoluteError: number;
  /** Eρ² = target / (target + relative error). */
  readonly relative: { readonly value: number } | Undefined;
  /** Φ = target / (target + absolute error). */
  readonly absolute: { readonly value: number } | Undefined;
  /** Eρ² when these very criteria, not a sample of them, are what counts. */
  readonly fixedCriteria: { readonly value: number } | Undefined;
};

/**
 * How reliable targets' means would be with so many raters and criteria. Negative components count as 0.
 * Undefined when there is neither variance between targets nor error.
 * Source: Cronbach, Gleser, Nanda & Rajaratnam 1972; Brennan 2001, chapters 2–4.
 * Worked example: target 0.5, residual 0.5, two raters, one criterion: relative error 0.25, Eρ² = 2/3.
 */
export function decisionStudy(components: StudyComponents, { raters, criteria }: { readonly raters: number; readonly criteria: number }): DecisionStudy {
  const kept = (component: number | undefined): number => Math.max(0, component ?? 0);
  const target = kept(components.target);
  const cells = raters * criteria;
  const withRaters = kept(components.targetRater) / raters + kept(components.residual) / cells;
  const withCriteria = kept(components.targetCriterion) / criteria;
  const relativeError = withRaters + withCriteria;
  const absoluteError = relativeError + kept(components.rater) / raters + kept(components.criterion) / criteria + kept(components.raterCriterion) / cells;
  return {
    raters,
    criteria,
    relativeError,
    absoluteError,
    relative: share(target, relativeError),
    absolute: share(target, absoluteError),
    fixedCriteria: share(target + withCriteria, withRaters),
  };
}

function share(universe: number, error: number): { readonly value: number } | Undefined {
  return universe + error > 0 ? { value: universe / (universe + error) } : { undefined: 'no variation' };
}
