import type { DegreeCosts } from './degreeCost';

/**
 * What the engine is asked. Keys are opaque: it knows no sex, collar, seat or phase.
 * Everything here comes from one immutable reveal snapshot, so the same question always has the same answer (ST2).
 */
export type PanelCriterion = {
  readonly key: string;
  /** True when the score is a signed degree d in -3..+3 (0 = as asked) whatever the scale. */
  readonly twoSided: boolean;
  /** Of a two-sided criterion: what 1, 2 and 3 degrees to either side cost, in sixths of the scale; 2, 4, 6 when left out. */
  readonly cost?: DegreeCosts;
};

/** One judged cell. A cell nobody judged is simply absent: never a middle score. */
export type PanelScore = {
  readonly puppy: string;
  readonly evaluator: string;
  readonly criterion: string;
  readonly value: number;
};

export type Panel = {
  readonly scale: { readonly low: number; readonly high: number };
  readonly puppies: readonly string[];
  readonly evaluators: readonly string[];
  readonly criteria: readonly PanelCriterion[];
  readonly scores: readonly PanelScore[];
};

/** One end a puppy is looked at for. Weights need not be normalised; a criterion left out weighs nothing. */
export type PurposeQuestion = {
  readonly key: string;
  readonly weights: Readonly<Record<string, number>>;
};

/** One place in the pick order, in order. `eligible` has sex, conditions, holds and withdrawals applied already. */
export type SlotQuestion = {
  readonly key: string;
  readonly purpose: string;
  readonly eligible: readonly string[];
  /** The actual pick, once made; null while open. */
  readonly picked: string | null;
  /** Chance from which this place counts as settled; the settings' when left out. */
  readonly closeBelow?: number;
};

/** One seat's answer to one second look: `first` and `second` name the pair, whichever side they stood on. */
export type LookAnswer = {
  readonly evaluator: string;
  readonly purpose: string;
  readonly first: string;
  readonly second: string;
  readonly choice: 'first' | 'second' | 'tie';
};

/** One seat's answer to one check, as its rule maps it; a seat that did not examine gives none. */
export type CheckAnswer = {
  readonly puppy: string;
  readonly check: string;
  readonly evaluator: string;
  readonly finding: 'normal' | 'watch' | 'notNormal';
};

/** Slots a puppy could take if a check that holds it were found normal, and cannot take if it is not. */
export type CheckStake = { readonly puppy: string; readonly check: string; readonly slots: readonly string[] };

/** What the cards say beside the scores. None of it enters merit; it may be worth talking about. */
export type BesideScores = {
  readonly checks: readonly CheckAnswer[];
  readonly stakes: readonly CheckStake[];
  /** The same criteria scored again while the puppy stood as it liked. */
  readonly freeStances: readonly PanelScore[];
};

export type ReconcileQuestion = {
  readonly panel: Panel;
  readonly purposes: readonly PurposeQuestion[];
  readonly slots: readonly SlotQuestion[];
  readonly looks: readonly LookAnswer[];
  /** Left out when the cards asked for scores alone. */
  readonly beside?: BesideScores;
};
