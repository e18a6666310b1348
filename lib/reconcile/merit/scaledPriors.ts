import type { MeritPriors } from './meritPriors';

/** The priors with every SD's scale multiplied (levels, medians and half-normal scales alike): to show how much they matter. */
export function scaledPriors(priors: MeritPriors, factor: number): MeritPriors {
  return {
    ...priors,
    criterionLevel: priors.criterionLevel * factor,
    degreeLevel: priors.degreeLevel * factor,
    puppy: priors.puppy * factor,
    puppyCriterion: priors.puppyCriterion * factor,
    evaluator: priors.evaluator * factor,
    evaluatorCriterion: priors.evaluatorCriterion * factor,
    puppyFolded: priors.puppyFolded * factor,
    evaluatorFolded: priors.evaluatorFolded * factor,
    puppyDegree: priors.puppyDegree * factor,
    evaluatorLean: priors.evaluatorLean * factor,
    liking: { ...priors.liking, median: priors.liking.median * factor },
    noise: { ...priors.noise, median: priors.noise.median * factor },
  };
}
