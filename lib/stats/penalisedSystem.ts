import { eliminationOrder } from './eliminationOrder';
import { designSums, gramMatrix, mixedDesign, type MixedDesign } from './mixedDesign';
import type { MixedModel } from './mixedModel';
import { factorise, inverseDiagonalOf, solveFactored, type SparseFactor } from './sparseFactor';

/**
 * The mixed-model equations of one design in spherical effects v, u_k = (σ_k / σ) v_k:
 *   M = Λ TᵀT Λ + D,   T = [Z X],
 * Λ diagonal, σ_k / σ on the columns of Z_k and 1 on those of X; D is 1 on the random effects and 0 on X. Then
 * Λ M⁻¹ Λ Tᵀy holds the predicted effects and the estimated fixed effects. A standard deviation of 0 is no special case.
 *
 * Source: Henderson 1975; Bates, Mächler, Bolker & Walker 2015 (penalised least squares).
 */
export type PenalisedSystem = {
  /** T, by column group. */
  readonly design: MixedDesign;
  /** TᵀT, row-major. */
  readonly gram: Float64Array;
  /** M = L D Lᵀ in the order of elimination, once `factorSystem` has run. */
  readonly factor: SparseFactor;
  /** Column of T eliminated at each position, and its inverse. */
  readonly order: Int32Array;
  readonly place: Int32Array;
  /** Λ, set by `factorSystem`. */
  readonly scale: Float64Array;
};

/**
 * The equations of a model before any variance is chosen: T, TᵀT, and the order in which they will be eliminated.
 *
 * Work and memory: size × size, size the number of levels and fixed effects together.
 *
 * @example Three levels and a mean.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'c'])
 * const system = createPenalisedSystem({ response: [1, 2, 4, 5], fixed: [intercept(4)], factors: [factor] })
 * [system.design.size, system.scale.length, [...system.order].sort()] // [4, 4, [0, 1, 2, 3]]
 */
export function createPenalisedSystem(model: MixedModel): PenalisedSystem {
  const design = mixedDesign(model);
  const { size } = design;
  const gram = gramMatrix(design);
  const { order, patterns } = eliminationOrder(gram, size);
  const place = new Int32Array(size);
  order.forEach((column, position) => (place[column] = position));
  const factor = { size, patterns, upper: new Float64Array(size * size), pivots: new Float64Array(size) };
  return { design, gram, factor, order, place, scale: new Float64Array(size) };
}

/**
 * Factorises M for given σ_k / σ ≥ 0, one for each factor; false when the fixed effects are not estimable.
 *
 * It changes the system, which keeps Λ and L D Lᵀ until the next call. Everything below reads them.
 *
 * @example A mean can be estimated once, not twice.
 * const model = { response: [1, 2, 4], fixed: [intercept(3)], factors: [] }
 * factorSystem(createPenalisedSystem(model), []) // true
 * factorSystem(createPenalisedSystem({ ...model, fixed: [intercept(3), intercept(3)] }), []) // false
 */
export function factorSystem(
  { design, gram, factor, order, scale }: PenalisedSystem,
  relativeSd: ArrayLike<number>,
): boolean {
  const { size, starts } = design;
  const { upper, patterns } = factor;
  const firstFixed = starts[relativeSd.length];
  scale.fill(1);
  for (let k = 0; k < relativeSd.length; k += 1) scale.fill(relativeSd[k], starts[k], starts[k + 1]);
  for (let j = 0; j < size; j += 1) {
    const column = order[j];
    const own = scale[column];
    upper[j * size + j] = gram[column * size + column] * own * own + (column < firstFixed ? 1 : 0);
    const pattern = patterns[j];
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a];
      const other = order[i];
      upper[j * size + i] = gram[column * size + other] * own * scale[other];
    }
  }
  return factorise(factor);
}

/**
 * Coefficients c that fit w best, Λ M⁻¹ Λ Tᵀw: predicted effects, then fixed effects, each on its own scale.
 *
 * @example Groups of two with means 2 and 8, σ_group = σ: two thirds of their distance from 5 remain.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b'])
 * const system = createPenalisedSystem({ response: [1, 3, 7, 9], fixed: [intercept(4)], factors: [factor] })
 * factorSystem(system, [1])
 * solveSystem(system, [1, 3, 7, 9]) // [-2, 2, 5]
 */
export function solveSystem(system: PenalisedSystem, w: ArrayLike<number>): Float64Array {
  return scaledSolution(system, designSums(system.design, w));
}

/**
 * The same from the sums Tᵀw, where those are at hand (`designSums`).
 *
 * @example
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b'])
 * const system = createPenalisedSystem({ response: [1, 3, 7, 9], fixed: [intercept(4)], factors: [factor] })
 * factorSystem(system, [1])
 * solveSums(system, Float64Array.of(4, 16, 20)) // [-2, 2, 5]
 */
export function solveSums(system: PenalisedSystem, sums: Float64Array): Float64Array {
  return scaledSolution(system, sums);
}

/**
 * One column of Λ M⁻¹ Λ: times σ², the covariances of (û − u, β̂) with that effect.
 *
 * @example The mean's own variance over σ²: (1 + 1/2) / 2.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b'])
 * const system = createPenalisedSystem({ response: [1, 3, 7, 9], fixed: [intercept(4)], factors: [factor] })
 * factorSystem(system, [1])
 * inverseColumn(system, 2)[2] // 0.75
 */
export function inverseColumn(system: PenalisedSystem, column: number): Float64Array {
  const unit = new Float64Array(system.design.size);
  unit[column] = 1;
  return scaledSolution(system, unit);
}

/**
 * Diagonal of M⁻¹, spherical scale, in the order of T's columns.
 *
 * @example With σ_group = σ the scales are 1: 1/3 of the group itself and (2/3)² of the mean's 0.75.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b'])
 * const system = createPenalisedSystem({ response: [1, 3, 7, 9], fixed: [intercept(4)], factors: [factor] })
 * factorSystem(system, [1])
 * inverseDiagonal(system) // [0.6667, 0.6667, 0.75]
 */
export function inverseDiagonal({ factor, place }: PenalisedSystem): Float64Array {
  const diagonal = inverseDiagonalOf(factor);
  return Float64Array.from(place, (position) => diagonal[position]);
}

/** Λ M⁻¹ Λ b. */
function scaledSolution({ factor, place, scale }: PenalisedSystem, b: Float64Array): Float64Array {
  const ordered = new Float64Array(b.length);
  for (let column = 0; column < b.length; column += 1) {
    ordered[place[column]] = b[column] * scale[column];
  }
  solveFactored(factor, ordered);
  const solution = new Float64Array(b.length);
  for (let column = 0; column < b.length; column += 1) {
    solution[column] = ordered[place[column]] * scale[column];
  }
  return solution;
}
