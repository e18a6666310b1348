/**
 * Priors of the merit model, all in units u (a sixth of the scale: one step of a seven-step sheet; one step of d for a two-sided
 * criterion), so that a 1-5 or 1-100 sheet is treated alike. Degrees are in steps of d until they are folded. All are proper and weak: their middle is what scores of
 * littermates commonly look like, their reach is several times wider than one litter can show.
 */
export type MeritPriors = {
  /** SD of a criterion's litter level about the middle of the scale (κ_c), normal. */
  readonly criterionLevel: number;
  /** SD of a two-sided criterion's litter level about "as asked", normal. */
  readonly degreeLevel: number;
  /**
   * The puppies' own SD (π) is this scale times z squared, z standard normal: its middle is 0.4 of a step, but a litter may
   * also be as alike as peas, which a half-normal prior grants too little.
   */
  readonly puppy: number;
  /** Half-normal scales of the SDs of: puppy × criterion (πκ), evaluator (β), evaluator × criterion (βκ). */
  readonly puppyCriterion: number;
  readonly evaluator: number;
  readonly evaluatorCriterion: number;
  /** The same of two-sided criteria once they are folded to quality. */
  readonly puppyFolded: number;
  readonly evaluatorFolded: number;
  /** Half-normal scales for the leans that folding takes off: puppy's own degree, evaluator's lean to one side, both per criterion. */
  readonly puppyDegree: number;
  readonly evaluatorLean: number;
  /**
   * SDs of each evaluator, drawn from a panel-wide lognormal: liking (πβ) and noise (ε) before it is rounded to a score. How much a small
   * panel's means are drawn together rests on the square of the liking, of which its few seats tell little: the root of the prior's mean
   * square, not its middle, is 0.4 of a step.
   */
  readonly liking: PanelSpread;
  readonly noise: PanelSpread;
  /** How many times as noisy a folded score is as another (ρ), log-normal. */
  readonly foldedNoise: { readonly median: number; readonly sd: number };
  /** One liking SD and one noise SD for all seats: a comparison for the expert, never the default. */
  readonly evaluatorsAlike: boolean;
};

/** log SD_j = log median + panel + seat_j, panel and seat_j normal with these SDs. */
export type PanelSpread = { readonly median: number; readonly panel: number; readonly seat: number };

export const PUPPY_POWER = 2;

export const meritPriors: MeritPriors = {
  criterionLevel: 2,
  degreeLevel: 1,
  puppy: 0.9,
  puppyCriterion: 0.8,
  evaluator: 0.8,
  evaluatorCriterion: 0.6,
  puppyFolded: 1.2,
  evaluatorFolded: 0.8,
  puppyDegree: 1,
  evaluatorLean: 0.8,
  liking: { median: 0.28, panel: 0.4, seat: 0.42 },
  noise: { median: 0.7, panel: 0.4, seat: 0.4 },
  foldedNoise: { median: 1.5, sd: 0.35 },
  evaluatorsAlike: false,
};
