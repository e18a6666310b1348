import type { MixedModelFit } from './fitMixedModel';
import type { MixedModel } from './mixedModel';
import { createPenalisedSystem, factorSystem, inverseDiagonal } from './penalisedSystem';

/**
 * Standard deviation of each level given the fixed effects and the variances, per factor (Bates et al. 2015, conditional modes).
 * It leaves out the uncertainty of the fixed effects: for telling levels apart use `predictionErrors`.
 */
export function conditionalDeviations(model: MixedModel, fit: MixedModelFit): Readonly<Record<string, readonly number[]>> {
  const system = createPenalisedSystem({ ...model, fixed: [] });
  factorSystem(system, fit.factors.map(({ variance }) => Math.sqrt(variance / fit.residual)));
  const inverse = inverseDiagonal(system);
  const { starts } = system.design;
  return Object.fromEntries(
    fit.factors.map(({ name, variance }, k) => [name, [...inverse.slice(starts[k], starts[k + 1])].map((value) => Math.sqrt(variance * value))]),
  );
}
