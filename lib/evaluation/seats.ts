import type { ViewerFace } from '../contract/evaluationView';
import type { SeatInput } from '../contract/setup';
import type { EvaluationFacts, SeatFacts, Viewer } from './facts';
import type { RoundState, SeatState } from './phase';
import { scoredRounds } from './rounds';

/** A seat's device holds that seat and no other; the owner's devices hold her own seat in every evaluation. */
type Holder = { readonly owner: boolean; readonly seatId: string | null };

/** The seat that a device holds in one evaluation; null when it holds none there. The owner's seat of an imported one was another's. */
export function seatOf({ seats, imported }: EvaluationFacts, { owner, seatId }: Holder): SeatFacts | null {
  if (imported !== null) return null;
  return seats.find((seat) => (owner ? seat.owner : seat.id === seatId)) ?? null;
}

/** A seat's place in the newest round: invited until a device holds it, locked once its card is. */
export function seatState(seat: SeatFacts): SeatState {
  if (seat.lockedAt !== null) return 'locked';
  return seat.joined ? 'joined' : 'invited';
}

/** What a viewer may do, from the rights of its seat; `seat` null where the owner has none, or holds none in this evaluation. */
export function viewerOf(owner: boolean, seat: SeatFacts | null): ViewerFace {
  const organises = !owner && seat?.organises === true;
  return {
    owner,
    seatId: seat?.id ?? null,
    leads: owner || organises || seat?.leads === true,
    organises,
    reads: owner || (seat !== null && readsRevealed(seat)),
  };
}

/** Those who scored, those who pick or organise, and readers. A table person without a right reads nothing. */
function readsRevealed({ kind, picks, organises, reads }: SeatFacts): boolean {
  return kind !== 'none' || picks || organises || reads;
}

/**
 * BL9: until a round or a second look is revealed, a device of a reissued seat reads only what it made itself there;
 * returns its id then, else null for all. Whoever holds the new link may not be who scored or answered before.
 *
 * @param state of the round or look that is read
 */
export function readsOnly(state: RoundState, seat: SeatFacts, deviceId: string): string | null {
  return seat.issued > 1 && state !== 'revealed' ? deviceId : null;
}

/**
 * Whose marks, notes and hands a viewer reads as its own: its seat's, and of those not told yet only what its own device made
 * where the seat was reissued.
 */
export function markReader(
  { seats }: Pick<EvaluationFacts, 'seats'>,
  { seatId }: Pick<Viewer, 'seatId'>,
  deviceId: string,
): { readonly seatId: string | null; readonly onlyDevice: string | null } {
  const seat = seats.find((one) => one.id === seatId);
  return { seatId: seat?.id ?? null, onlyDevice: seat ? readsOnly('open', seat, deviceId) : null };
}

/**
 * Whether a viewer is kept from knowing which puppy is which: from photographs, where it was agreed, until the reveal. The owner, and whoever
 * leads or organises, have to know.
 */
export function seesCodes(facts: EvaluationFacts, viewer: Viewer): boolean {
  return (
    facts.plan.identity === 'coded' &&
    facts.medium === 'photographs' &&
    !viewer.owner &&
    !viewer.leads &&
    scoredRounds(facts).length === 0
  );
}

/** Organising and reading are for those who do not score: whoever prepares sees the weights, and has her hand in the order. */
export function rightsFit({ kind, organises, reads }: Pick<SeatInput, 'kind' | 'organises' | 'reads'>): boolean {
  return kind === 'none' || (organises !== true && reads !== true);
}

/** Who takes part in the talk: all who read, but readers. */
export function mayDiscuss(seat: SeatFacts): boolean {
  return seat.owner || seat.kind !== 'none' || seat.picks || seat.organises;
}

type Asker = { readonly viewer: Viewer; readonly seat: SeatFacts | null };

/** Whoever takes part may bring pictures until the record is sealed; who only reads, or may not know which puppy is which, may not. */
export function mayAddPhoto(facts: EvaluationFacts, { viewer, seat }: Asker): boolean {
  return (
    facts.phase !== 'sealed' &&
    facts.imported === null &&
    !seesCodes(facts, viewer) &&
    (viewer.owner || (seat !== null && (seat.kind !== 'none' || seat.leads || seat.organises)))
  );
}

/**
 * The one to look at is chosen before scores are seen, or the favourite gets the best picture: never after a round of this
 * evaluation was revealed. Practice shows reference pictures and does not count.
 */
export function mayChooseKeeper(facts: EvaluationFacts, asker: Asker): boolean {
  const rounds = [...facts.earlierRounds, ...(facts.round ? [facts.round] : [])];
  return (
    mayAddPhoto(facts, asker) && !rounds.some((round) => round.state === 'revealed' && round.occasion !== 'practice')
  );
}

/** The list of wanted views is the owner's. */
export function mayChangeShotList({ phase, imported }: EvaluationFacts, { viewer }: Asker): boolean {
  return viewer.owner && phase !== 'sealed' && imported === null;
}
