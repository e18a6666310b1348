import { eliminationOrder } from './eliminationOrder';
import { designSums, gramMatrix, mixedDesign, type MixedDesign } from './mixedDesign';
import type { MixedModel } from './mixedModel';
import { factorise, inverseDiagonalOf, solveFactored, type SparseFactor } from './sparseFactor';

/**
 * The mixed-model equations of one design in spherical effects: M = Λ TᵀT Λ + D with T = [Z X]; Λ scales the columns of Z by
 * σ_k / σ and those of X by 1; D is the identity on the random effects and 0 on X. A standard deviation of 0 is no special case.
 * Source: Henderson 1975; Bates, Mächler, Bolker & Walker 2015 (penalised least squares).
 */
export type PenalisedSystem = {
  readonly design: MixedDesign;
  readonly gram: Float64Array;
  readonly factor: SparseFactor;
  /** Column of T eliminated at each position, and its inverse. */
  readonly order: Int32Array;
  readonly place: Int32Array;
  /** Λ, set by `factorSystem`. */
  readonly scale: Float64Array;
};

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

/** Factorises M for the factors' σ_k / σ; false when the fixed effects are not estimable. */
export function factorSystem({ design, gram, factor, order, scale }: PenalisedSystem, relativeSd: ArrayLike<number>): boolean {
  const { size, starts } = design;
  const { upper, patterns } = factor;
  const firstFixed = starts[relativeSd.length];
  scale.fill(1);
  for (let k = 0; k < relativeSd.length; k += 1) scale.fill(relativeSd[k], starts[k], starts[k + 1]);
  for (let j = 0; j < size; j += 1) {
    const column = order[j];
    const own = scale[column];
    upper[j * size + j] = (gram[column * size + column]) * own * own + (column < firstFixed ? 1 : 0);
    const pattern = patterns[j];
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a];
      const other = order[i];
      upper[j * size + i] = (gram[column * size + other]) * own * (scale[other]);
    }
  }
  return factorise(factor);
}

/** Best fit c to w: effects and fixed effects on their own scale (Λ times the spherical solution). */
export function solveSystem(system: PenalisedSystem, w: ArrayLike<number>): Float64Array {
  return scaledSolution(system, designSums(system.design, w));
}

/** The same from Tᵀ w. */
export function solveSums(system: PenalisedSystem, sums: Float64Array): Float64Array {
  return scaledSolution(system, sums);
}

/** Column `column` of Λ M⁻¹ Λ. */
export function inverseColumn(system: PenalisedSystem, column: number): Float64Array {
  const unit = new Float64Array(system.design.size);
  unit[column] = 1;
  return scaledSolution(system, unit);
}

/** Diagonal of M⁻¹, spherical scale. */
export function inverseDiagonal({ factor, place }: PenalisedSystem): Float64Array {
  const diagonal = inverseDiagonalOf(factor);
  return Float64Array.from(place, (position) => diagonal[position]);
}

/** Λ M⁻¹ Λ b. */
function scaledSolution({ factor, place, scale }: PenalisedSystem, b: Float64Array): Float64Array {
  const ordered = new Float64Array(b.length);
  for (let column = 0; column < b.length; column += 1) {
    ordered[place[column]] = (b[column]) * (scale[column]);
  }
  solveFactored(factor, ordered);
  const solution = new Float64Array(b.length);
  for (let column = 0; column < b.length; column += 1) {
    solution[column] = (ordered[place[column]]) * (scale[column]);
  }
  return solution;
}
