import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, SeatFacts, Viewer } from './facts';
import { toldAtOnce } from './toldAtOnce';

export type LookPair = { readonly firstPuppyId: string; readonly secondPuppyId: string };
export type LookMedium = 'table' | 'photographs';
export type LookQuestion = {
  readonly slotId: string;
  readonly medium: LookMedium;
  readonly pairs: readonly LookPair[];
};

/** How many batches this slot has had. */
type Earlier = { readonly batches: number };

export const pairsPerBatch = 3;
/** What is proposed for one batch: the answers to one pair say which to look at next, and among three candidates three pairs leave nothing to choose. */
export const pairsProposed = 1;

/** The owner or a table leader opens a batch of looks at puppies that the slot could take; one batch at a time, as many as agreed. */
export function decideOpenLook(
  facts: EvaluationFacts,
  viewer: Viewer,
  look: LookQuestion & Earlier,
): DomainErrorCode | null {
  if (!viewer.owner && !viewer.leads) return 'not-allowed';
  if (facts.phase !== 'deciding') return 'wrong-phase';
  const slot = facts.slots.find((one) => one.id === look.slotId);
  if (!slot) return 'not-found';
  const distinct =
    new Set(look.pairs.map((pair) => [pair.firstPuppyId, pair.secondPuppyId].toSorted().join(' '))).size ===
    look.pairs.length;
  if (look.pairs.length === 0 || look.pairs.length > pairsPerBatch || !distinct) return 'bad-input';
  if (!toldAtOnce(facts)) return 'still-open';
  const faults = look.pairs.map((pair) => pairFault(facts, slot, pair)).filter((fault) => fault !== null);
  return faults[0] ?? (look.batches >= facts.plan.lookBatches ? 'looks-spent' : null);
}

function pairFault(
  facts: EvaluationFacts,
  slot: EvaluationFacts['slots'][number],
  { firstPuppyId, secondPuppyId }: LookPair,
): DomainErrorCode | null {
  const pair = [firstPuppyId, secondPuppyId].map((id) => facts.puppies.find((puppy) => puppy.id === id));
  if (pair.some((puppy) => !puppy)) return 'not-found';
  if (firstPuppyId === secondPuppyId) return 'bad-input';
  const fits = pair.every((puppy) => puppy && !puppy.withdrawn && (slot.sex === 'any' || puppy.sex === slot.sex));
  return fits ? null : 'not-eligible';
}

/** A live look is answered by seats that see the table, one from photographs by every scoring seat; not by the taker of the slot who has declared an interest. */
export function mayAnswerLook(
  facts: EvaluationFacts,
  seat: SeatFacts,
  { slotId, medium }: { readonly slotId: string; readonly medium: LookMedium },
): boolean {
  const slot = facts.slots.find((one) => one.id === slotId);
  const interested = !seat.owner && seat.interest !== '' && slot?.seatId === seat.id;
  const sees = medium === 'photographs' ? seat.kind !== 'none' : seat.kind === 'hands' || seat.kind === 'live';
  return sees && !interested;
}

/** One look of an open batch, with the seats that have answered it. */
export type AnsweredLook = {
  readonly slotId: string;
  readonly medium: LookMedium;
  readonly answered: ReadonlySet<string>;
};

/** Seats that hold a device, may answer and have not: those a batch waits for. */
export function awaitedSeats(facts: EvaluationFacts, looks: readonly AnsweredLook[]): readonly SeatFacts[] {
  return facts.seats.filter(
    (seat) => seat.joined && looks.some((look) => mayAnswerLook(facts, seat, look) && !look.answered.has(seat.id)),
  );
}

/**
 * The last awaited answer closes a batch. Whoever leads may close it before, once every answer of its own is given; one that
 * answers nothing here has nothing to lose by reading the first answer, so it closes when nobody is awaited any more (BL8).
 */
export function decideCloseLook(
  facts: EvaluationFacts,
  viewer: Viewer,
  looks: readonly AnsweredLook[],
): DomainErrorCode | null {
  if (!viewer.owner && !viewer.leads) return 'not-allowed';
  const awaited = awaitedSeats(facts, looks);
  if (awaited.some((seat) => seat.id === viewer.seatId)) return 'own-card-open';
  const answers = facts.seats.some(
    (seat) => seat.id === viewer.seatId && looks.some((look) => mayAnswerLook(facts, seat, look)),
  );
  return answers || awaited.length === 0 ? null : 'look-awaited';
}

/** Who stands on the left: as fixed at opening; from photographs every other seat sees the pair the other way round. */
export function firstOnLeftFor(
  look: { readonly firstOnLeft: boolean; readonly medium: LookMedium },
  seatPosition: number,
): boolean {
  return look.medium === 'photographs' && seatPosition % 2 === 1 ? !look.firstOnLeft : look.firstOnLeft;
}
