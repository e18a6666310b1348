import type { Undefined } from './coefficient';
import { climbLikelihood, type Climbed, type LikelihoodTask } from './likelihoodAscent';
import type { MixedModel } from './mixedModel';
import { createPenalisedSystem, factorSystem, inverseColumn, type PenalisedSystem } from './penalisedSystem';
import { restrictedLikelihood, type RestrictedLikelihood } from './restrictedLikelihood';
import { varies } from './scoreTable';
import { varianceStart } from './varianceStart';

type FittedFactor = {
  readonly name: string;
  /** σ_k², exactly 0 at the boundary. */
  readonly variance: number;
  /** Best linear unbiased prediction of each level, in the order of the levels. */
  readonly effects: readonly number[];
  /** False: the component cannot be told from the residual or from earlier factors; it was left out (variance 0). */
  readonly estimable: boolean;
};

/**
 * A mixed model with its variances estimated: σ_k² of the factors, σ² of the residual, and what follows from them.
 */
export type MixedModelFit = {
  readonly factors: readonly FittedFactor[];
  /** σ², above 0. */
  readonly residual: number;
  /** β by generalised least squares, and standard errors at the estimated variances. */
  readonly fixed: readonly { readonly estimate: number; readonly se: number }[];
  /** Restricted log-likelihood, all constants included. */
  readonly logLikelihood: number;
  readonly iterations: number;
  /** Factorised at the estimates, for `predictionErrors` and `varianceErrors`. */
  readonly system: PenalisedSystem;
};

/**
 * Fits a linear mixed model by restricted maximum likelihood (REML).
 *
 * Model: y = X β + Σ_k Z_k u_k + e, u_k ~ N(0, σ_k² I), e ~ N(0, σ² I), so that Var(y) = V = Σ σ_k² Z_k Z_kᵀ + σ² I.
 * REML takes the likelihood of what is left of y when X is taken out, and so does not count the fixed effects as
 * known:
 *   −2 l(σ²) = (n − p) log 2π + log|V| + log|XᵀV⁻¹X| + yᵀP y, P as in `varianceErrors`.
 * Then β̂ = (XᵀV⁻¹X)⁻¹ XᵀV⁻¹y and û_k = σ_k² Z_kᵀ V⁻¹ (y − X β̂), the best linear unbiased prediction.
 *
 * The way there: quadratic unbiased estimates (`varianceStart`), then average-information steps
 * (`climbLikelihood`), a variance being held at 0 while the slope there points below it. On complete tables whose
 * analysis-of-variance components are positive, the estimates are those components.
 *
 * Undefined: no more responses than fixed effects ('too few observations'); all responses equal ('no variation');
 * 'fixed effects not estimable'; a model that fits every response ('no residual variation'); 'no convergence'.
 *
 * Source: Patterson & Thompson 1971, Recovery of inter-block information; Gilmour, Thompson & Cullis 1995, Average
 * information REML; Henderson 1975 (prediction).
 *
 * @example Groups (1, 3), (5, 7), (9, 11): mean squares 32 between, 2 within, so σ²_group = (32 − 2) / 2.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b', 'c', 'c'])
 * const fit = fitMixedModel({ response: [1, 3, 5, 7, 9, 11], fixed: [intercept(6)], factors: [factor] })
 * fit.factors[0].variance // 15.0000
 * fit.residual // 2.0000
 * fit.fixed[0] // { "estimate": 6.0000, "se": 2.3094 }
 * fit.factors[0].effects // [-3.7500, 0.0000, 3.7500]
 * fitMixedModel({ response: [2, 2, 2], fixed: [intercept(3)], factors: [] }) // { "undefined": "no variation" }
 */
export function fitMixedModel(model: MixedModel): MixedModelFit | Undefined {
  if (model.response.length <= model.fixed.length) return { undefined: 'too few observations' };
  const scale = meanSquare(model.response);
  if (!varies(model.response)) return { undefined: 'no variation' };
  const system = createPenalisedSystem(model);
  const start = varianceStart(system, model);
  if (start === null) return { undefined: 'fixed effects not estimable' };
  const estimable = start.variances.map((variance) => variance !== null);
  const task = { system, model, estimable, scale };
  // Where the quadratic estimate leaves next to no residual, a start there would be lost in rounding.
  const floor = start.residual > 1e-4 * scale ? start.residual : 0.05 * scale;
  const ratios = Float64Array.from(start.variances, (variance) =>
    (variance ?? 0) > 1e-9 * floor ? (variance ?? 0) / floor : 0,
  );
  const climbed = climbLikelihood(task, ratios);
  if (climbed === null) return { undefined: 'fixed effects not estimable' };
  if (!climbed.settled) {
    const vanishing = climbed.at.residual < 1e-4 * scale || risesWithoutResidual(task, climbed.at);
    return { undefined: vanishing ? 'no residual variation' : 'no convergence' };
  }
  return describeFit(task, climbed);
}

function describeFit({ system, model, estimable }: LikelihoodTask, { at, iterations }: Climbed): MixedModelFit {
  const { starts } = system.design;
  factorSystem(system, at.ratios.map(Math.sqrt));
  const firstFixed = starts[model.factors.length];
  const factors = model.factors.map(({ name }, k) => ({
    name,
    variance: at.ratios[k] * at.residual,
    effects: [...at.coefficients.slice(starts[k], starts[k + 1])],
    estimable: estimable[k] === true,
  }));
  const fixed = model.fixed.map((_, c) => ({
    estimate: at.coefficients[firstFixed + c],
    se: Math.sqrt(at.residual * inverseColumn(system, firstFixed + c)[firstFixed + c]),
  }));
  return { factors, residual: at.residual, fixed, logLikelihood: at.logLikelihood, iterations, system };
}

/**
 * Whether the likelihood grows without bound as the residual vanishes: it does, by half a unit of log ratio per degree
 * of freedom left over, exactly when the effects in play fit every response.
 */
function risesWithoutResidual({ system, model }: LikelihoodTask, { ratios }: RestrictedLikelihood): boolean {
  const at = (ratio: number): number =>
    restrictedLikelihood(
      system,
      model,
      ratios.map((value) => (value > 0 ? ratio : 0)),
    )?.logLikelihood ?? -Infinity;
  return at(1e8) - at(1e6) > 1;
}

/** Mean square about the mean: the scale against which a residual counts as none. */
function meanSquare(response: readonly number[]): number {
  const mean = response.reduce((sum, y) => sum + y, 0) / response.length;
  return response.reduce((sum, y) => sum + (y - mean) ** 2, 0) / response.length;
}
