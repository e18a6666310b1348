import type { MixedModelFit } from './fitMixedModel';
import type { MixedModel } from './mixedModel';
import { createPenalisedSystem, factorSystem, inverseDiagonal } from './penalisedSystem';

/**
 * How far the true level of each random effect may lie from its prediction, were the fixed effects known.
 *
 * With ZᵀZ / σ² + D⁻¹ the precision of the effects u given y, β and the variances (D their covariance before the
 * data), the deviations are the square roots of the diagonal of its inverse.
 *
 * Out: for each factor a list over its levels, in units of the response. They leave out the uncertainty of the fixed
 * effects: for telling levels apart use `predictionErrors`.
 *
 * Source: Bates, Mächler, Bolker & Walker 2015, Fitting linear mixed-effects models using lme4 (conditional modes).
 *
 * @example Groups of two with σ²_group = 15 and σ² = 2: √(1 / (2/2 + 1/15)) = √(15/16) each.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b', 'c', 'c'])
 * const model = { response: [1, 3, 5, 7, 9, 11], fixed: [intercept(6)], factors: [factor] }
 * conditionalDeviations(model, fitMixedModel(model)) // { "group": [0.9682, 0.9682, 0.9682] }
 */
export function conditionalDeviations(
  model: MixedModel,
  fit: MixedModelFit,
): Readonly<Record<string, readonly number[]>> {
  const system = createPenalisedSystem({ ...model, fixed: [] });
  factorSystem(
    system,
    fit.factors.map(({ variance }) => Math.sqrt(variance / fit.residual)),
  );
  const inverse = inverseDiagonal(system);
  const { starts } = system.design;
  return Object.fromEntries(
    fit.factors.map(({ name, variance }, k) => [
      name,
      [...inverse.slice(starts[k], starts[k + 1])].map((value) => Math.sqrt(variance * value)),
    ]),
  );
}
