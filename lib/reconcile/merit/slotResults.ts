import { invariant } from '#lib/invariant';
import type { SlotQuestion } from '../panel/panel';
import { bestChances, type WeightedMerits } from './rankChances';
import type { Chance, SlotResult } from './reconciliation';

/** When a slot is a close call. */
export type CloseCallThresholds = {
  /** Close when the most probable puppy has less than this. */
  readonly closeBelow: number;
  /** The candidates of a close call are the smallest set that holds this much. */
  readonly candidatesHold: number;
};

export const closeCallThresholds: CloseCallThresholds = { closeBelow: 0.8, candidatesHold: 0.9 };

/**
 * The chance from which a place is settled, from what a wrong pick costs in units of what going on costs: stopping at chance P risks (1 − P) · cost, and
 * is worth it once that is no more than P. Worked example: a cost of 4 settles at 0.80, of 1.5 at 0.60. Kept between 0.5 and 0.95.
 */
export function settledFrom(costOfWrongPick: number): number {
  return Math.min(0.95, Math.max(0.5, costOfWrongPick / (costOfWrongPick + 1)));
}

/** What the slots are read from: merits by purpose, in the order of `puppies`. */
export type SlotSource = {
  readonly puppies: readonly string[];
  readonly byPurpose: ReadonlyMap<string, WeightedMerits>;
  readonly thresholds: CloseCallThresholds;
  /** A sixth of the scale, in points: a step of a seven-step sheet. */
  readonly unit: number;
};

/**
 * Walks the pick order. A slot's choice is among its eligible puppies less what earlier slots took (their actual pick, else their
 * most probable puppy) and, while it is open, less what any other slot has actually picked.
 */
export function slotResults(slots: readonly SlotQuestion[], source: SlotSource): SlotResult[] {
  const taken = new Set<string>();
  return slots.map((slot) => {
    const elsewhere = new Set(
      slots.filter((other) => other !== slot && other.picked !== null).map((other) => other.picked),
    );
    const free = slot.eligible.filter((puppy) => !taken.has(puppy) && (slot.picked !== null || !elsewhere.has(puppy)));
    const chances = chancesOf(slot, free, source);
    const [first] = chances;
    const closeBelow = slot.closeBelow ?? source.thresholds.closeBelow;
    const close = first !== undefined && first.probability < closeBelow;
    const filledBy = slot.picked ?? first?.puppy ?? null;
    if (filledBy !== null) taken.add(filledBy);
    const candidates = close ? smallestSet(chances, source.thresholds.candidatesHold) : [];
    const halfStep = source.unit / 2;
    const alike = candidates.length > 1 ? chanceWithin(halfStep, candidates, { slot, source }) : 0;
    return { key: slot.key, purpose: slot.purpose, chances, close, closeBelow, alike, halfStep, candidates, filledBy };
  });
}

/** Chance that the best of the candidates is better than the worst by less than `reach`. */
function chanceWithin(
  reach: number,
  candidates: readonly Chance[],
  { slot, source }: { readonly slot: SlotQuestion; readonly source: SlotSource },
): number {
  const { merits, weights, puppies } = meritsOf(slot, source);
  const places = candidates.map(({ puppy }) => source.puppies.indexOf(puppy));
  let [within, all] = [0, 0];
  for (let draw = 0; draw < weights.length; draw += 1) {
    let [low, high] = [Infinity, -Infinity];
    for (const place of places) {
      const merit = merits[draw * puppies + place];
      low = Math.min(low, merit);
      high = Math.max(high, merit);
    }
    all += weights[draw];
    if (high - low < reach) within += weights[draw];
  }
  return within / all;
}

function meritsOf(slot: SlotQuestion, { byPurpose }: SlotSource): WeightedMerits {
  const merits = byPurpose.get(slot.purpose);
  invariant(merits, `slot ${slot.key} names purpose ${slot.purpose}, which the question does not have`);
  return merits;
}

function chancesOf(slot: SlotQuestion, free: readonly string[], source: SlotSource): Chance[] {
  const positions = source.puppies.flatMap((puppy, at) => (free.includes(puppy) ? [at] : []));
  return bestChances(meritsOf(slot, source), positions)
    .map((probability, at) => ({ puppy: source.puppies[positions[at] ?? -1] ?? '', probability }))
    .sort((a, b) => b.probability - a.probability);
}

/** Most probable first; a rounding error short of the mark counts as reaching it. */
function smallestSet(chances: readonly Chance[], hold: number): Chance[] {
  let held = 0;
  return chances.filter(({ probability }) => {
    if (held >= hold - 1e-9) return false;
    held += probability;
    return true;
  });
}
