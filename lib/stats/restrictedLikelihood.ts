import { designResidual, designSums } from './mixedDesign';
import type { MixedModel } from './mixedModel';
import { factorSystem, inverseDiagonal, solveSums, solveSystem, type PenalisedSystem } from './penalisedSystem';
import { logDeterminant } from './sparseFactor';

/** The restricted likelihood at given variance ratios σ_k² / σ², with σ² at its best value for them. */
export type RestrictedLikelihood = {
  readonly ratios: Float64Array;
  /** σ² = yᵀ(y − T c) / (n − p), in squared units of the response. */
  readonly residual: number;
  readonly logLikelihood: number;
  /** Random effects, then fixed effects. */
  readonly coefficients: Float64Array;
  /** y - T c. */
  readonly left: Float64Array;
};

/**
 * The restricted log-likelihood at given ratios, all constants included; `fitMixedModel` has the model.
 *
 * With n responses, p fixed effects and M of `PenalisedSystem`: σ² = yᵀ(y − T c) / (n − p) is best for the ratios,
 * and there
 *   −2 l = (n − p)(1 + log 2πσ²) + log|M|.
 *
 * Null when the fixed effects are not estimable. Leaves the system factorised at these ratios.
 * Source: Patterson & Thompson 1971; Bates, Mächler, Bolker & Walker 2015 (profiled criterion).
 *
 * @example No random effect: σ² is the sample variance 7/3, and log|M| = log 3.
 * const model = { response: [1, 2, 4], fixed: [intercept(3)], factors: [] }
 * const at = restrictedLikelihood(createPenalisedSystem(model), model, Float64Array.of())
 * at.residual // 2.3333
 * at.logLikelihood + 0.5 * (2 * (1 + Math.log(2 * Math.PI * 7 / 3)) + Math.log(3)) // 0
 */
export function restrictedLikelihood(
  system: PenalisedSystem,
  model: MixedModel,
  ratios: Float64Array,
): RestrictedLikelihood | null {
  if (!factorSystem(system, ratios.map(Math.sqrt))) return null;
  const y = model.response;
  const coefficients = solveSystem(system, y);
  const left = designResidual(system.design, y, coefficients);
  const freedom = y.length - model.fixed.length;
  let penalised = 0;
  for (let i = 0; i < left.length; i += 1) penalised += left[i] * y[i];
  const residual = Math.max(penalised, 0) / freedom;
  const logLikelihood = -0.5 * (freedom * (1 + Math.log(2 * Math.PI * residual)) + logDeterminant(system.factor));
  return { ratios, residual, logLikelihood, coefficients, left };
}

/**
 * First and second derivatives of the restricted log-likelihood in the variances themselves, row-major; the second
 * as information, that is with the sign turned.
 */
export type Slope = {
  /** ∂l/∂σ_k² for the factors asked for, then ∂l/∂σ². */
  readonly score: Float64Array;
  /** Average of observed and expected information: ½ (V_k P y)ᵀ P (V_l P y), row-major. */
  readonly information: Float64Array;
};

/**
 * Score and average information at a point just evaluated (the system must still hold its factor), for `factors`
 * with a positive ratio.
 *
 * With P as in `varianceErrors`, V_k = Z_k Z_kᵀ and û_k the predicted effects, q_k in number:
 *   ∂l/∂σ_k² = −½ (tr P V_k − û_kᵀû_k / σ_k⁴),   tr P V_k = (q_k − tr of that block of M⁻¹) / σ_k²
 *   average information = ½ yᵀP V_k P V_l P y, the mean of the observed and the expected one, and cheaper than either.
 *
 * Source: Johnson & Thompson 1995; Gilmour, Thompson & Cullis 1995.
 *
 * @example No random effect: at its best σ² the slope is 0, and the information (n − p) / (2 σ⁴) = 9/49.
 * const model = { response: [1, 2, 4], fixed: [intercept(3)], factors: [] }
 * const system = createPenalisedSystem(model)
 * const { score, information } = restrictedSlope(system, restrictedLikelihood(system, model, Float64Array.of()), [])
 * [score[0], information[0]] // [0, 0.1837]
 */
export function restrictedSlope(system: PenalisedSystem, at: RestrictedLikelihood, factors: readonly number[]): Slope {
  const { starts, observations, groups } = system.design;
  const inverse = inverseDiagonal(system);
  const m = factors.length;
  const score = new Float64Array(m + 1);
  const directions: Float64Array[] = [];
  let degrees = observations - (starts[starts.length - 1] - starts[starts.length - 2]);
  for (let k = 0; k < at.ratios.length; k += 1) {
    const first = starts[k];
    const last = starts[k + 1];
    if (at.ratios[k] === 0) continue;
    const variance = at.ratios[k] * at.residual;
    let squares = 0;
    let trace = last - first;
    for (let i = first; i < last; i += 1) {
      squares += at.coefficients[i] ** 2;
      trace -= inverse[i];
    }
    degrees -= trace;
    const place = factors.indexOf(k);
    if (place < 0) continue;
    score[place] = -0.5 * (trace / variance - squares / variance ** 2);
    const { column } = groups[k];
    directions[place] = Float64Array.from(column, (i) => at.coefficients[i] / variance);
  }
  let squares = 0;
  for (let i = 0; i < observations; i += 1) squares += at.left[i] ** 2;
  score[m] = -0.5 * (degrees / at.residual - squares / at.residual ** 2);
  directions.push(at.left.map((value) => value / at.residual));
  return { score, information: averageInformation(system, directions, at.residual) };
}

/** ½ w_kᵀ P w_l, by w_kᵀ w_l less what the fit of w_l explains. */
function averageInformation(
  system: PenalisedSystem,
  directions: readonly Float64Array[],
  residual: number,
): Float64Array {
  const m = directions.length;
  const information = new Float64Array(m * m);
  const sums = directions.map((direction) => designSums(system.design, direction));
  sums.forEach((sum, k) => {
    const fitted = solveSums(system, sum);
    for (let l = 0; l <= k; l += 1) {
      const value = (dot(directions[k], directions[l]) - dot(fitted, sums[l])) / (2 * residual);
      information[k * m + l] = value;
      information[l * m + k] = value;
    }
  });
  return information;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i] * b[i];
  return sum;
}
