import { choleskyFactor, choleskyLogDeterminant, lowerSolve, lowerTransposeSolve } from '#lib/stats/cholesky';
import { invariant } from '#lib/invariant';
import {
  addPrecision,
  crossedPrior,
  crossedSystem,
  precisionForm,
  type CrossedSystem,
  type CrossedVariances,
  type Tie,
} from './crossedSystem';
import type { MeritPriors } from './meritPriors';
import type { PanelDesign, Pattern } from './panelDesign';
import type { StandardDeviations } from './varianceParameters';

/**
 * Everything Gaussian once the SDs are given. Scores, those of two-sided criteria folded to quality, are y_pjc = κ_c + (πκ)_pc + (βκ)_jc + g_pj + ε
 * with pair effects g_pj = π_p + β_j + (πβ)_pj; given g the criteria are independent, so the likelihood is a product of small tables. One-sided
 * and folded criteria are two families with SDs of their own for πκ, βκ and ε. Of tied seats πβ, βκ and ε have a factor in common.
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
  readonly folded: readonly CrossedSystem[];
};

/** What the tables of one family of criteria say, whatever the pair effects' own SDs. */
type FamilyPart = {
  readonly systems: readonly CrossedSystem[];
  /** Sum of −log |V| − y'V⁻¹y. */
  readonly term: number;
  /** Sums of V⁻¹ and of V⁻¹y, placed at the design's pairs. */
  readonly precision: Float64Array;
  readonly right: Float64Array;
};

export type ConditionalPosteriorOf = (sds: StandardDeviations) => ConditionalPosterior;

/**
 * The posterior as a function of the SDs. The search for the mode moves one or two SDs at a time, and each family of tables depends
 * on some of them only, so the latest parts are kept; the answer does not depend on what is kept.
 */
export function conditionalPosterior(design: PanelDesign, priors: MeritPriors): ConditionalPosteriorOf {
  const places = Int32Array.from(design.pairs.puppies.keys());
  const side = places.length;
  const oneSidedPart = remembered((variances) => familyPart(design, design.oneSided, variances));
  const foldedPart = remembered((variances) => familyPart(design, design.folded, variances));
  return (sds) => {
    const ties = tiesOf(design.repeats, sds.noiseRepeated);
    const oneSided = oneSidedPart({ ...oneSidedVariances(sds, priors, design.rounding.oneSided), ...ties.tables });
    const folded = foldedPart({ ...foldedVariances(sds, priors, design.rounding.folded), ...ties.tables });
    const pairSystem = crossedSystem(
      design.pairs,
      crossedPrior(design.puppies.length, {
        common: 0,
        puppy: sds.puppy ** 2,
        seat: sds.evaluator ** 2,
        own: sds.liking.map((sd) => sd ** 2),
        ...ties.pairs,
      }),
    );
    const pairFactor = oneSided.precision.slice();
    for (let at = 0; at < pairFactor.length; at += 1) pairFactor[at] = pairFactor[at] + folded.precision[at];
    addPrecision(pairSystem, { matrix: pairFactor, side }, { places, times: 1 });
    invariant(choleskyFactor(pairFactor, side), 'pair effects have a positive definite precision');
    const pairMean = oneSided.right.map((value, at) => value + folded.right[at]);
    let twiceLog = oneSided.term + folded.term - pairSystem.logDeterminant - choleskyLogDeterminant(pairFactor, side);
    lowerSolve(pairFactor, side, pairMean);
    for (let pair = 0; pair < side; pair += 1) twiceLog += pairMean[pair] ** 2;
    lowerTransposeSolve(pairFactor, side, pairMean);
    return {
      sds,
      logLikelihood: twiceLog / 2,
      pairSystem,
      pairMean,
      pairFactor,
      oneSided: oneSided.systems,
      folded: folded.systems,
    };
  };
}

/** Largest loading: all but the hundredth part of the variance that keeps every matrix well conditioned. */
const MOST = Math.sqrt(0.99);

type Tied = { readonly tie?: Tie };

/**
 * A seat that repeats another in a share c of its cells has, of what lasts over many cells (a liking, a leaning), c of the other's and 1 − c of its own: correlation
 * c / √(c² + (1 − c)²), if the two are of one size. How far noise, new in each cell, goes together is estimated, since cells not repeated differ by more than noise.
 */
function tiesOf(repeats: readonly number[], noiseRepeated: number): { readonly tables: Tied; readonly pairs: Tied } {
  if (repeats.every((share) => share === 0)) return { tables: {}, pairs: {} };
  const passing = Float64Array.from(repeats, (share) =>
    Math.min(MOST, share === 1 ? 1 : share > 0 ? noiseRepeated : 0),
  );
  const lasting = Float64Array.from(repeats, (share) => Math.min(MOST, share / Math.hypot(share, 1 - share)));
  return { tables: { tie: { own: passing, effects: lasting } }, pairs: { tie: { own: lasting, effects: null } } };
}

const MOST_REMEMBERED = 64;

function remembered(compute: (variances: CrossedVariances) => FamilyPart): (variances: CrossedVariances) => FamilyPart {
  const known = new Map<string, FamilyPart>();
  return (variances) => {
    const key = `${variances.tie?.own.join(' ') ?? ''} ${variances.puppy} ${variances.seat} ${variances.own.join(' ')}`;
    const part = known.get(key) ?? compute(variances);
    if (known.size >= MOST_REMEMBERED) known.clear();
    known.set(key, part);
    return part;
  };
}

function familyPart(design: PanelDesign, patterns: readonly Pattern[], variances: CrossedVariances): FamilyPart {
  const side = design.pairs.puppies.length;
  const target = { matrix: new Float64Array(side * side), side };
  const right = new Float64Array(side);
  let term = 0;
  const prior = crossedPrior(design.puppies.length, variances);
  const systems = patterns.map((pattern) => {
    const system = crossedSystem(pattern, prior);
    term -= pattern.criteria.length * system.logDeterminant;
    const places = pattern.pairs;
    addPrecision(system, target, { places, times: pattern.criteria.length });
    for (const { values } of pattern.criteria) term -= precisionForm(system, values, { right, places });
    return system;
  });
  return { systems, term, precision: target.matrix, right };
}

function oneSidedVariances(sds: StandardDeviations, priors: MeritPriors, rounding: number): CrossedVariances {
  return {
    common: priors.criterionLevel ** 2,
    puppy: sds.puppyCriterion ** 2,
    seat: sds.evaluatorCriterion ** 2,
    own: sds.noise.map((sd) => sd ** 2 + rounding),
  };
}

function foldedVariances(sds: StandardDeviations, priors: MeritPriors, rounding: number): CrossedVariances {
  return {
    common: priors.criterionLevel ** 2,
    puppy: sds.puppyFolded ** 2,
    seat: sds.evaluatorFolded ** 2,
    own: sds.noise.map((sd) => (sd * sds.foldedNoise) ** 2 + rounding),
  };
}
