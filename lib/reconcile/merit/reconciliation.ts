/** What the engine answers: plain data, safe to store as JSON and to send across a thread. */

import type { CellFlag } from '../talk/cellFlags';

/** Posterior estimate with its 90% interval, in scale points unless the field says otherwise. */
export type Estimate = { readonly value: number; readonly sd: number; readonly low: number; readonly high: number };

/** A figure that does not exist for these data, and why (ST1). */
export type Undefined = { readonly undefined: string };

export type Merit = {
  readonly puppy: string;
  /** Weighted quality minus the litter's mean, in scale points. */
  readonly estimate: number;
  readonly sd: number;
  /** 90% interval of that contrast. */
  readonly low: number;
  readonly high: number;
  /** 50% interval, for the thick part of the drawn bar. */
  readonly halfLow: number;
  readonly halfHigh: number;
  /** What the plain mean would have said, minus the litter's plain mean; null when nobody judged the puppy. */
  readonly mean: number | null;
  /** Chance of rank 1, 2, … of this purpose; sums to 1. */
  readonly ranks: readonly number[];
};

export type PurposeResult = {
  readonly key: string;
  /** Best first. */
  readonly merit: readonly Merit[];
  /** better[a][b] = chance that a stands above b. */
  readonly better: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** The litter's own level, on the scale. */
  readonly level: Estimate;
};

export type Chance = { readonly puppy: string; readonly probability: number };

/** `close` means that no puppy reaches `closeBelow`. */
export type SlotResult = {
  readonly key: string;
  readonly purpose: string;
  /** Eligible puppies not taken by earlier slots, most probable first; sums to 1. Empty when nobody is eligible. */
  readonly chances: readonly Chance[];
  readonly close: boolean;
  /** The chance from which it is not: the place's own, or the settings'. */
  readonly closeBelow: number;
  /** Of a close call: chance that its candidates all lie within half a step of the sheet of each other; else 0. */
  readonly alike: number;
  /** Half a step of the sheet, in scale points. */
  readonly halfStep: number;
  /** Smallest set holding 0.90, when close; else empty. */
  readonly candidates: readonly Chance[];
  /** The actual pick, else the most probable puppy: what later slots count as gone. Null when nobody is eligible. */
  readonly filledBy: string | null;
};

export type EvaluatorResult = {
  readonly evaluator: string;
  /** Level against the median of the panel's seats, which one severe seat does not move, in points: negative is severe. */
  readonly severity: Estimate | Undefined;
  /** SD of this seat's overall liking from puppy to puppy, in points. */
  readonly liking: Estimate | Undefined;
  /** SD of what is left of a single score, in points. */
  readonly noise: Estimate | Undefined;
  /** Chance that this seat's liking, and its noise, is more than a quarter larger than that of every other seat; 0 where it has no such figure. */
  readonly standsOut: { readonly liking: number; readonly noise: number };
};

/** One thing worth talking about, and what settling it would do for the slot it could help most. */
export type AgendaItem = {
  readonly flag: Flag;
  /** Of a close call: the two puppies whose order would be settled, the likelier first. */
  readonly between?: readonly [string, string];
  readonly slot: string;
  /** Chance that the slot's most probable puppy is the right pick, as things stand. */
  readonly now: number;
  /** The same expected once the item is settled: now + gain. */
  readonly settled: number;
  readonly gain: number;
};

/** Something in the result that the panel should look at together. Keys are the panel's own. */
export type Flag =
  | { readonly kind: 'closeCall'; readonly slot: string }
  | { readonly kind: 'splitOnPuppy'; readonly puppy: string; readonly range: number }
  | CellFlag
  | { readonly kind: 'splitCheck'; readonly puppy: string; readonly check: string }
  | { readonly kind: 'oddEvaluator'; readonly evaluator: string; readonly by: 'severity' | 'liking' | 'noise' };

export type Reconciliation = {
  readonly engineVersion: string;
  readonly purposes: readonly PurposeResult[];
  readonly slots: readonly SlotResult[];
  readonly evaluators: readonly EvaluatorResult[];
  /** Largest gain first, five at most. */
  readonly agenda: readonly AgendaItem[];
  /** Second looks that are part of these numbers. */
  readonly looks: { readonly answers: number };
};
