import type { EvaluationFacts, SeatFacts } from './facts';

/** Who has to agree to the pick order: every seat that picks, save the owner's, who wrote it. */
export function partiesOf({ seats }: Pick<EvaluationFacts, 'seats'>): readonly SeatFacts[] {
  return seats.filter((seat) => seat.picks && !seat.owner);
}

/** Parties that have not confirmed the order as it is worded now. */
export function unconfirmedParties(facts: EvaluationFacts): readonly SeatFacts[] {
  return partiesOf(facts).filter((seat) => !facts.confirmedSeatIds.includes(seat.id));
}
