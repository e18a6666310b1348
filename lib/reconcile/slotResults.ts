import { invariant } from '#lib/invariant';
import type { SlotQuestion } from './panel';
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

/** What the slots are read from: merits by purpose, in the order of `puppies`. */
export type SlotSource = {
  readonly puppies: readonly string[];
  readonly byPurpose: ReadonlyMap<string, WeightedMerits>;
  readonly thresholds: CloseCallThresholds;
};

/**
 * Walks the pick order. A slot's choice is among its eligible puppies less what earlier slots took (their actual pick, else their
 * most probable puppy) and, while it is open, less what any other slot has actually picked.
 */
export function slotResults(slots: readonly SlotQuestion[], source: SlotSource): SlotResult[] {
  const taken = new Set<string>();
  return slots.map((slot) => {
    const elsewhere = new Set(slots.filter((other) => other !== slot && other.picked !== null).map((other) => other.picked));
    const free = slot.eligible.filter((puppy) => !taken.has(puppy) && (slot.picked !== null || !elsewhere.has(puppy)));
    const chances = chancesOf(slot, free, source);
    const [first] = chances;
    const close = first !== undefined && first.probability < source.thresholds.closeBelow;
    const filledBy = slot.picked ?? first?.puppy ?? null;
    if (filledBy !== null) taken.add(filledBy);
    const candidates = close ? smallestSet(chances, source.thresholds.candidatesHold) : [];
    return { key: slot.key, purpose: slot.purpose, chances, close, candidates, filledBy };
  });
}

function chancesOf(slot: SlotQuestion, free: readonly string[], source: SlotSource): Chance[] {
  const merits = source.byPurpose.get(slot.purpose);
  invariant(merits, `slot ${slot.key} names purpose ${slot.purpose}, which the question does not have`);
  const positions = source.puppies.flatMap((puppy, at) => (free.includes(puppy) ? [at] : []));
  return bestChances(merits, positions)
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
