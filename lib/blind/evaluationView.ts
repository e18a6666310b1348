import type { EvaluationView, PuppyFace, SeatFace } from '../contract/evaluationView';
import { ageInDays } from '../evaluation/ages';
import type { EvaluationFacts, RoundFacts, SeatFacts, Viewer } from '../evaluation/facts';
import { partiesOf } from '../evaluation/pickOrder';
import { scoredRounds } from '../evaluation/rounds';
import { seatState, seesCodes, viewerOf } from '../evaluation/seats';
import { balancedOrder } from '../evaluation/showingOrders';
import { createSeededRandom, seedFromNumbers } from '../stats/seededRandom';
import { commitmentsView } from './commitmentViews';

type Beside = Pick<EvaluationView, 'versions' | 'head'> & {
  readonly commitments: Parameters<typeof commitmentsView>[1];
};

/**
 * BL2: what one member sees of an evaluation, built field by field. It takes facts that hold no score, so no score can
 * be in it; purposes (weights) stay with the owner until reveal; parents are in no view of a seat.
 * Returns null for a viewer that is neither the owner nor a seat of this evaluation.
 */
export function evaluationView(
  facts: EvaluationFacts,
  viewer: Viewer,
  { versions, head, commitments }: Beside,
): EvaluationView | null {
  const seat = facts.seats.find((one) => one.id === viewer.seatId) ?? null;
  if (!viewer.owner && !seat) return null;
  const afterReveal = scoredRounds(facts).length > 0;
  const coded = seesCodes(facts, viewerOf(viewer.owner, seat));
  return {
    id: facts.id,
    name: facts.name,
    litterName: facts.litter.name,
    breed: facts.litter.breed,
    ageDays: ageInDays(facts.litter.whelpedOn, facts.heldOn),
    heldOn: facts.heldOn,
    phase: facts.phase,
    callLink: facts.callLink,
    callNumber: facts.callNumber,
    tableNote: facts.tableNote,
    viewer: viewerOf(viewer.owner, seat),
    sheet: facts.sheet,
    puppies: puppiesSeen(facts, { viewer, seat }),
    seats: facts.seats.map(seatFace),
    slots: facts.slots.map((slot) => ({
      id: slot.id,
      taker: slot.taker,
      seatId: slot.seatId,
      purpose: slot.purpose,
      sex: slot.sex,
      condition: slot.condition,
      byWhen: slot.byWhen,
      ifFails: slot.ifFails,
    })),
    purposes: viewer.owner || afterReveal ? facts.purposes.map(({ key, weights }) => ({ key, weights })) : null,
    plan: planFace(facts.plan),
    parties: partiesView(facts),
    round: facts.round && roundView(facts.round, { seat, coded }),
    revealed: afterReveal,
    lookOpen: facts.openBatchId !== null,
    commitments: commitmentsView(facts, commitments),
    head: { seq: head.seq, hash: head.hash },
    versions: { all: versions.all, own: versions.own },
    imported: facts.imported && {
      at: facts.imported.at,
      writtenAt: facts.imported.writtenAt,
      head: { seq: facts.imported.head.seq, hash: facts.imported.head.hash },
    },
  };
}

/** Puppies and round as one seat's own device sees them, codes and order included. */
export function asSeatSees(
  facts: EvaluationFacts,
  seat: SeatFacts,
): Pick<EvaluationView, 'puppies' | 'round'> & { readonly coded: boolean } {
  const coded = seesCodes(facts, viewerOf(seat.owner, seat));
  return {
    coded,
    puppies: coded ? codedPuppies(facts.puppies, seat.id) : facts.puppies.map(puppyFace),
    round: facts.round && roundView(facts.round, { seat, coded }),
  };
}

/** The litter by the names that a viewer knows it by: while a seat sees codes, by its own codes. */
export function puppiesSeen(
  facts: EvaluationFacts,
  { viewer, seat }: { readonly viewer: Pick<Viewer, 'owner'>; readonly seat: SeatFacts | null },
): PuppyFace[] {
  return seat && seesCodes(facts, viewerOf(viewer.owner, seat))
    ? codedPuppies(facts.puppies, seat.id)
    : facts.puppies.map(puppyFace);
}

function puppyFace({ id, name, sex, collar, secondMark, withdrawn }: PuppyFace): PuppyFace {
  return { id, name, sex, collar, secondMark, withdrawn };
}

export function seatFace(seat: SeatFacts): SeatFace {
  return {
    id: seat.id,
    position: seat.position,
    label: seat.label,
    kind: seat.kind,
    leads: seat.leads,
    picks: seat.picks,
    organises: seat.organises,
    reads: seat.reads,
    interest: seat.interest,
    owner: seat.owner,
    state: seatState(seat),
  };
}

function planFace({
  kind,
  learnerSeatId,
  discussion,
  identity,
  hoursSinceMeal,
}: EvaluationFacts['plan']): EvaluationView['plan'] {
  return { kind, learnerSeatId, discussion, identity, hoursSinceMeal };
}

export function partiesView(facts: EvaluationFacts): EvaluationView['parties'] {
  return partiesOf(facts).map((seat) => ({ seat: seat.id, confirmed: facts.confirmedSeatIds.includes(seat.id) }));
}

function roundView(
  round: RoundFacts,
  { seat, coded }: { readonly seat: SeatFacts | null; readonly coded: boolean },
): EvaluationView['round'] {
  const own = round.medium === 'photographs' && seat ? ownOrder(round, seat) : round.showings;
  return {
    id: round.id,
    occasion: round.occasion,
    medium: round.medium,
    state: round.state,
    // The place in the owner's order would tell which puppy a code stands for, and from photographs which of two showings is the second.
    showings: own.map(({ id, puppyId, place, repeat }, at) => ({
      id,
      puppyId,
      place: coded || (own !== round.showings && round.state !== 'revealed') ? at : place,
      repeat: repeat && round.state === 'revealed',
    })),
    tableShowingId: round.medium === 'table' ? round.tableShowingId : null,
    cells: round.cells && round.cells.map(({ puppyId, criterion }) => ({ puppyId, criterion })),
  };
}

/** In a photograph round each seat works in its own balanced order. */
function ownOrder(round: RoundFacts, seat: SeatFacts): RoundFacts['showings'] {
  return balancedOrder(round.showings.length, seat.position).flatMap((index) => round.showings[index] ?? []);
}

const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/**
 * The litter as one seat sees it by code: a letter each in an order drawn for this seat, so that two seats' letters do not go together and none tells of
 * the order in which the puppies were entered. Sex stays, since checks and places ask for it; name, collar and marks go.
 *
 * @param seatId drawn at random by the server when the seat was made: the draw rests on it
 */
function codedPuppies(puppies: readonly PuppyFace[], seatId: string): PuppyFace[] {
  const random = createSeededRandom(seedFromNumbers([...seatId].map((digit) => digit.charCodeAt(0))));
  const drawn = puppies.map((puppy) => ({ puppy, rank: random.uniform() })).sort((one, other) => one.rank - other.rank);
  return drawn.map(({ puppy }, at) => ({
    id: puppy.id,
    name: codeAt(at),
    sex: puppy.sex,
    collar: 'none',
    secondMark: '',
    withdrawn: puppy.withdrawn,
  }));
}

function codeAt(at: number): string {
  const round = Math.floor(at / letters.length);
  return `Puppy ${letters[at % letters.length] ?? ''}${round === 0 ? '' : String(round + 1)}`;
}

/** Words of the record for a viewer who sees codes: what names a puppy is left out. */
export function withoutNames(words: string, puppies: readonly PuppyFace[]): string {
  return puppies.some(({ name }) => words.includes(name)) ? '' : words;
}
