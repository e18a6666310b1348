import { choleskyFactor, choleskyLogDeterminant, lowerSolve, lowerTransposeSolve } from '#lib/stats/cholesky';
import { invariant } from '#lib/invariant';
import { addPrecision, applyPrecision, crossedSystem, type CrossedSystem } from './crossedSystem';
import type { MeritPriors } from './meritPriors';
import type { PanelDesign, Pattern } from './panelDesign';
import type { StandardDeviations } from './varianceParameters';

/**
 * Everything Gaussian once the SDs are given. One-sided scores are y_pjc = κ_c + (πκ)_pc + (βκ)_jc + g_pj + ε with pair effects
 * g_pj = π_p + β_j + (πβ)_pj; given g the criteria are independent, so the likelihood is a product of small tables.
 */
export type ConditionalPosterior = {
  readonly sds: StandardDeviations;
  readonly logLikelihood: number;
  /** π and β given g; its cells are the design's pairs. */
  readonly pairSystem: CrossedSystem;
  /** Posterior of g: mean, and Cholesky factor of its precision. */
  readonly pairMean: Float64Array;
  readonly pairFactor: Float64Array;
  /** (κ + πκ) and βκ given g, in the order of the design's patterns. */
  readonly oneSided: readonly CrossedSystem[];
  /** The puppies' degrees and the seats' leans, in the order of the design's patterns. */
  readonly twoSided: readonly CrossedSystem[];
};

export function conditionalPosterior(design: PanelDesign, priors: MeritPriors, sds: StandardDeviations): ConditionalPosterior {
  const side = design.pairs.puppies.length;
  const target = { matrix: new Float64Array(side * side), side };
  const right = new Float64Array(side);
  const pairSystem = crossedSystem(design.pairs, design.puppies.length, {
    common: 0, puppy: sds.puppy ** 2, seat: sds.evaluator ** 2, own: sds.liking.map((sd) => sd ** 2),
  });
  const places = Int32Array.from({ length: side }, (_, place) => place);
  addPrecision(pairSystem, target, { places, times: 1 });
  let twiceLog = -pairSystem.logDeterminant;
  const oneSided = design.oneSided.map((pattern) => {
    const system = crossedSystem(pattern, design.puppies.length, oneSidedVariances(sds, priors));
    addPrecision(system, target, { places: pattern.pairs, times: pattern.criteria.length });
    twiceLog += patternTerm(system, pattern, right);
    return system;
  });
  const twoSided = design.twoSided.map((pattern) => {
    const system = crossedSystem(pattern, design.puppies.length, twoSidedVariances(sds, priors));
    twiceLog += patternTerm(system, pattern, null);
    return system;
  });
  invariant(choleskyFactor(target.matrix, side), 'pair effects have a positive definite precision');
  const pairMean = right;
  lowerSolve(target.matrix, side, pairMean);
  for (const value of pairMean) twiceLog += value * value;
  lowerTransposeSolve(target.matrix, side, pairMean);
  twiceLog -= choleskyLogDeterminant(target.matrix, side);
  return { sds, logLikelihood: twiceLog / 2, pairSystem, pairMean, pairFactor: target.matrix, oneSided, twoSided };
}

function oneSidedVariances(sds: StandardDeviations, priors: MeritPriors) {
  return {
    common: priors.criterionLevel ** 2,
    puppy: sds.puppyCriterion ** 2,
    seat: sds.evaluatorCriterion ** 2,
    own: sds.noise.map((sd) => sd ** 2),
  };
}

/**
 * A signed degree shares nothing of sign with quality: more of it is neither better nor worse. So it gets a litter level, a
 * puppy's own degree and a seat's lean per criterion, no overall puppy effect and no liking; only a seat's care (its noise) is
 * carried over, times a ratio common to all seats.
 */
function twoSidedVariances(sds: StandardDeviations, priors: MeritPriors) {
  return {
    common: priors.degreeLevel ** 2,
    puppy: sds.puppyDegree ** 2,
    seat: sds.evaluatorLean ** 2,
    own: sds.noise.map((sd) => (sd * sds.degreeNoise) ** 2),
  };
}

/** −log |V| − y'V⁻¹y summed over the pattern's criteria; adds V⁻¹y to what is known of the pair effects. */
function patternTerm(system: CrossedSystem, pattern: Pattern, right: Float64Array | null): number {
  let term = -pattern.criteria.length * system.logDeterminant;
  for (const { values } of pattern.criteria) {
    const { product, quadratic } = applyPrecision(system, values);
    term -= quadratic;
    if (!right) continue;
    for (let cell = 0; cell < product.length; cell += 1) {
      const place = pattern.pairs[cell] as number;
      right[place] = (right[place] as number) + (product[cell] as number);
    }
  }
  return term;
}
