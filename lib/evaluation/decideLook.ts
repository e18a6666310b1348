import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, SeatFacts, Viewer } from './facts';

export type LookPair = { readonly firstPuppyId: string; readonly secondPuppyId: string };
export type LookMedium = 'table' | 'photographs';
export type LookQuestion = { readonly slotId: string; readonly medium: LookMedium; readonly pairs: readonly LookPair[] };

/** What second looks there have been: whether one is open, and how many batches this slot has had. */
type Earlier = { readonly anotherOpen: boolean; readonly batches: number };

export const pairsPerBatch = 3;
/** What is proposed for one batch: the answers to one pair say which to look at next, and among three candidates three pairs leave nothing to choose. */
export const pairsProposed = 1;

/** The owner or a table leader opens a batch of looks at puppies that the slot could take; one batch at a time, as many as agreed. */
export function decideOpenLook(facts: EvaluationFacts, viewer: Viewer, look: LookQuestion & Earlier): DomainErrorCode | null {
  if (!viewer.owner && !viewer.leads) return 'not-allowed';
  if (facts.phase !== 'deciding') return 'wrong-phase';
  const slot = facts.slots.find((one) => one.id === look.slotId);
  if (!slot) return 'not-found';
  const distinct = new Set(look.pairs.map((pair) => [pair.firstPuppyId, pair.secondPuppyId].toSorted().join(' '))).size === look.pairs.length;
  if (look.pairs.length === 0 || look.pairs.length > pairsPerBatch || !distinct) return 'bad-input';
  if (look.anotherOpen || facts.round?.state !== 'revealed') return 'still-open';
  const faults = look.pairs.map((pair) => pairFault(facts, slot, pair)).filter((fault) => fault !== null);
  return faults[0] ?? (look.batches >= facts.plan.lookBatches ? 'looks-spent' : null);
}

function pairFault(facts: EvaluationFacts, slot: EvaluationFacts['slots'][number], { firstPuppyId, secondPuppyId }: LookPair): DomainErrorCode | null {
  const pair = [firstPuppyId, secondPuppyId].map((id) => facts.puppies.find((puppy) => puppy.id === id));
  if (pair.some((puppy) => !puppy)) return 'not-found';
  if (firstPuppyId === secondPuppyId) return 'bad-input';
  const fits = pair.every((puppy) => puppy && !puppy.withdrawn && (slot.sex === 'any' || puppy.sex === slot.sex));
  return fits ? null : 'not-eligible';
}

/** A live look is answered by seats that see the table, one from photographs by every scoring seat; not by the taker of the slot who has declared an interest. */
export function mayAnswerLook(facts: EvaluationFacts, seat: SeatFacts, { slotId, medium }: { readonly slotId: string; readonly medium: LookMedium }): boolean {
  const slot = facts.slots.find((one) => one.id === slotId);
  const interested = !seat.owner && seat.interest !== '' && slot?.seatId === seat.id;
  const sees = medium === 'photographs' ? seat.kind !== 'none' : seat.kind === 'hands' || seat.kind === 'live';
  return sees && !interested;
}

/** Who stands on the left: as fixed at opening; from photographs every other seat sees the pair the other way round. */
export function firstOnLeftFor(look: { readonly firstOnLeft: boolean; readonly medium: LookMedium }, seatPosition: number): boolean {
  return look.medium === 'photographs' && seatPosition % 2 === 1 ? !look.firstOnLeft : look.firstOnLeft;
}
