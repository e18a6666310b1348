import type { Undefined } from './coefficient';

/**
 * Variance components of a crossed design targets × raters × criteria with one score a cell, in squared points; a
 * component left out counts as 0. The residual holds the three-way interaction.
 */
export type StudyComponents = {
  readonly target: number;
  readonly rater?: number;
  readonly criterion?: number;
  readonly targetRater?: number;
  readonly targetCriterion?: number;
  readonly raterCriterion?: number;
  readonly residual: number;
};

/**
 * What a design with these numbers of raters and criteria would bring: error variances of a target's mean in squared
 * points, and the coefficients that follow from them, 0 … 1.
 */
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
 * How reliable targets' means would be with so many raters and criteria.
 *
 * With p for targets, j raters, c criteria, e the residual, and n_j and n_c how many there are of each:
 *   relative error  δ² = σ²_pj / n_j + σ²_pc / n_c + σ²_e / (n_j n_c)
 *   absolute error  Δ² = δ² + σ²_j / n_j + σ²_c / n_c + σ²_jc / (n_j n_c)
 *   Eρ² = σ²_p / (σ²_p + δ²),   Φ = σ²_p / (σ²_p + Δ²)
 *   criteria fixed: (σ²_p + σ²_pc / n_c) / (the same + σ²_pj / n_j + σ²_e / (n_j n_c))
 *
 * In: components; negative ones count as 0. Numbers ≥ 1. A coefficient is undefined where targets and error both
 * have none.
 *
 * Source: Cronbach, Gleser, Nanda & Rajaratnam 1972, The Dependability of Behavioral Measurements; Brennan 2001,
 * chapters 2–4.
 *
 * @example Two raters halve the residual: δ² = 0.25, Eρ² = 2/3; four would give 0.8.
 * decisionStudy({ target: 0.5, residual: 0.5 }, { raters: 2, criteria: 1 }).relative // { "value": 0.6667 }
 * decisionStudy({ target: 0.5, residual: 0.5 }, { raters: 4, criteria: 1 }).relative // { "value": 0.8 }
 *
 * @example Levels of raters are error only for Φ.
 * const components = { target: 1, rater: 0.6, residual: 0.4 }
 * const { relativeError, absoluteError } = decisionStudy(components, { raters: 2, criteria: 1 })
 * [relativeError, absoluteError] // [0.2, 0.5]
 */
export function decisionStudy(
  components: StudyComponents,
  { raters, criteria }: { readonly raters: number; readonly criteria: number },
): DecisionStudy {
  const kept = (component: number | undefined): number => Math.max(0, component ?? 0);
  const target = kept(components.target);
  const cells = raters * criteria;
  const withRaters = kept(components.targetRater) / raters + kept(components.residual) / cells;
  const withCriteria = kept(components.targetCriterion) / criteria;
  const relativeError = withRaters + withCriteria;
  const absoluteError =
    relativeError +
    kept(components.rater) / raters +
    kept(components.criterion) / criteria +
    kept(components.raterCriterion) / cells;
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
