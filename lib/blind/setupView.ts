import type { SetupView } from '../contract/evaluationView';
import type { EvaluationFacts } from '../evaluation/facts';
import { partiesView, seatFace } from './evaluationView';

/** The owner's set-up page, built field by field from facts that hold no score (BL2). */
export function setupView(facts: EvaluationFacts): SetupView {
  return {
    id: facts.id,
    litterId: facts.litter.id,
    litterName: facts.litter.name,
    whelpedOn: facts.litter.whelpedOn,
    sheetId: facts.sheetId,
    phase: facts.phase,
    name: facts.name,
    heldOn: facts.heldOn,
    medium: facts.medium,
    callLink: facts.callLink,
    callNumber: facts.callNumber,
    tableNote: facts.tableNote,
    sheet: facts.sheet,
    puppies: facts.puppies.map(({ id, name, sex, collar, secondMark, withdrawn }) => ({
      id,
      name,
      sex,
      collar,
      secondMark,
      withdrawn,
    })),
    seats: facts.seats.map((seat) => ({ ...seatFace(seat), linkWaiting: seat.linkWaiting, paper: seat.paper })),
    purposes: facts.purposes.map(({ key, weights }) => ({ key, weights })),
    slots: facts.slots.map(({ id, taker, seatId, purpose, sex, condition, byWhen, ifFails }) => ({
      id,
      taker,
      seatId,
      purpose,
      sex,
      condition,
      byWhen,
      ifFails,
    })),
    plan: planOf(facts.plan),
    parties: partiesView(facts),
    order: [...facts.order],
  };
}

function planOf({
  kind,
  learnerSeatId,
  discussion,
  identity,
  silentRepeat,
  hoursSinceMeal,
  lookBatches,
}: EvaluationFacts['plan']): SetupView['plan'] {
  return { kind, learnerSeatId, discussion, identity, silentRepeat, hoursSinceMeal, lookBatches };
}
