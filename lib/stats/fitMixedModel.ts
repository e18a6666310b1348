import type { Undefined } from './coefficient';
import { climbLikelihood, type Climbed, type LikelihoodTask } from './likelihoodAscent';
import type { MixedModel } from './mixedModel';
import { createPenalisedSystem, factorSystem, inverseColumn, type PenalisedSystem } from './penalisedSystem';
import { varianceStart } from './varianceStart';

export type FittedFactor = {
  readonly name: string;
  /** σ_k², exactly 0 at the boundary. */
  readonly variance: number;
  /** Best linear unbiased prediction of each level, in the order of the levels. */
  readonly effects: readonly number[];
  /** False: the component cannot be told from the residual or from earlier factors; it was left out (variance 0). */
  readonly estimable: boolean;
};

export type MixedModelFit = {
  readonly factors: readonly FittedFactor[];
  readonly residual: number;
  readonly fixed: readonly { readonly estimate: number; readonly se: number }[];
  /** Restricted log-likelihood, all constants included. */
  readonly logLikelihood: number;
  readonly iterations: number;
  /** Factorised at the estimates, for `predictionErrors` and `varianceErrors`. */
  readonly system: PenalisedSystem;
};

/**
 * Restricted maximum likelihood by average-information steps from MINQUE(0), with variances held at zero while the slope there points below it.
 * Undefined when the fixed effects are not estimable, too few observations are left, or the model fits without any residual.
 * Source: Patterson & Thompson 1971; Gilmour, Thompson & Cullis 1995. Worked example: on a complete table whose analysis-of-variance
 * components are positive, the estimates are those components.
 */
export function fitMixedModel(model: MixedModel): MixedModelFit | Undefined {
  if (model.response.length <= model.fixed.length) return { undefined: 'too few observations' };
  const system = createPenalisedSystem(model);
  const start = varianceStart(system, model);
  if (start === null) return { undefined: 'fixed effects not estimable' };
  const scale = meanSquare(model.response);
  const estimable = start.variances.map((variance) => variance !== null);
  const task = { system, model, estimable, scale };
  const floor = Math.max(start.residual, 1e-6 * scale);
  const ratios = Float64Array.from(start.variances, (variance) => Math.max(0, variance ?? 0) / floor);
  const climbed = climbLikelihood(task, ratios);
  if (climbed === null) return { undefined: 'no convergence' };
  if (climbed.at.residual <= 1e-10 * scale) return { undefined: 'no residual variation' };
  return describeFit(task, climbed);
}

function describeFit({ system, model, estimable }: LikelihoodTask, { at, iterations }: Climbed): MixedModelFit {
  const { starts } = system.design;
  factorSystem(system, at.ratios.map(Math.sqrt));
  const firstFixed = starts[model.factors.length] as number;
  const factors = model.factors.map(({ name }, k) => ({
    name,
    variance: (at.ratios[k] as number) * at.residual,
    effects: [...at.coefficients.slice(starts[k], starts[k + 1])],
    estimable: estimable[k] === true,
  }));
  const fixed = model.fixed.map((_, c) => ({
    estimate: at.coefficients[firstFixed + c] as number,
    se: Math.sqrt(at.residual * (inverseColumn(system, firstFixed + c)[firstFixed + c] as number)),
  }));
  return { factors, residual: at.residual, fixed, logLikelihood: at.logLikelihood, iterations, system };
}

/** Mean square about the mean: the scale against which a residual counts as none. */
function meanSquare(response: readonly number[]): number {
  const mean = response.reduce((sum, y) => sum + y, 0) / response.length;
  return response.reduce((sum, y) => sum + (y - mean) ** 2, 0) / response.length;
}
