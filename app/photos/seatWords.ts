import type { EvaluationView } from '#lib/contract/evaluationView';
import { holding } from '../_evaluation/isRescoring';

/** A seat by its label; nothing for one's own. */
export function seatWords({ seats, viewer }: Pick<EvaluationView, 'seats' | 'viewer'>, seatId: string): string {
  return seatId === viewer.seatId ? '' : (seats.find((seat) => seat.id === seatId)?.label ?? 'a seat');
}

/** Whose affair one's own marks or readings are for now; null where everybody sees them at once. */
export function heldWords(evaluation: EvaluationView, what: 'marks' | 'readings'): string | null {
  const open = holding(evaluation);
  if (open !== null) return `A ${open} is open. The ${what} you make meanwhile are yours alone until it is revealed.`;
  return evaluation.round?.state === 'revealed' ? null : `Your ${what} are yours alone until the reveal.`;
}
