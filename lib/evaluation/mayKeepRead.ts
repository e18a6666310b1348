import type { EvaluationView } from '../contract/evaluationView';

/**
 * Whether a device may keep what its own seat reads of an evaluation, for opening without the server: only while a seat
 * scores in a round that is open or closed. What a reveal shows is never kept.
 */
export function mayKeepRead({ round, seats, viewer }: Pick<EvaluationView, 'round' | 'seats' | 'viewer'>): boolean {
  const seat = seats.find((one) => one.id === viewer.seatId);
  return seat !== undefined && seat.kind !== 'none' && (round?.state === 'open' || round?.state === 'closed');
}
