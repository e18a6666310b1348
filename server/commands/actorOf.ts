import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';

/** How the record names who acted: the owner, or the seat by its label. */
export function actorOf(facts: EvaluationFacts, viewer: Viewer): string {
  if (viewer.owner) return 'owner';
  return facts.seats.find((seat) => seat.id === viewer.seatId)?.label ?? 'unknown';
}
