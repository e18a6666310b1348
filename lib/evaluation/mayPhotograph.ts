import type { EvaluationFacts, SeatFacts, Viewer } from './facts';
import { seesCodes } from './seesCodes';

type Asker = { readonly viewer: Viewer; readonly seat: SeatFacts | null };

/** Whoever takes part may bring pictures until the record is sealed; who only reads, or may not know which puppy is which, may not. */
export function mayAddPhoto(facts: EvaluationFacts, { viewer, seat }: Asker): boolean {
  return facts.phase !== 'sealed' && !seesCodes(facts, viewer) && (viewer.owner || (seat !== null && (seat.kind !== 'none' || seat.leads || seat.organises)));
}

/**
 * The one to look at is chosen before scores are seen, or the favourite gets the best picture: never after a round of this
 * evaluation was revealed. Practice shows reference pictures and does not count.
 */
export function mayChooseKeeper(facts: EvaluationFacts, asker: Asker): boolean {
  const rounds = [...facts.earlierRounds, ...(facts.round ? [facts.round] : [])];
  return mayAddPhoto(facts, asker) && !rounds.some((round) => round.state === 'revealed' && round.occasion !== 'practice');
}

/** The list of wanted views is the owner's. */
export function mayChangeShotList({ phase }: EvaluationFacts, { viewer }: Asker): boolean {
  return viewer.owner && phase !== 'sealed';
}
