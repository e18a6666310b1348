import type { EvaluationView } from '#lib/contract/evaluationView';

/** A seat by its label; nothing for one's own. */
export function seatWords({ seats, viewer }: Pick<EvaluationView, 'seats' | 'viewer'>, seatId: string): string {
  return seatId === viewer.seatId ? '' : (seats.find((seat) => seat.id === seatId)?.label ?? 'a seat');
}
