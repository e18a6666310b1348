import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';

/** Why this viewer's seat does not answer a look. */
export function noAnswerWords(look: LookView, { viewer, seats, slots }: EvaluationView): string {
  if (look.state === 'closed') return 'A backup was restored, and these looks came back closed: they may have been shown before. Nobody answers them any more.';
  const seat = seats.find((one) => one.id === viewer.seatId);
  const slot = slots.find((one) => one.id === look.slotId);
  if (!seat) return 'You have no seat at this panel, so you do not answer.';
  if (seat.kind === 'none') return 'Your seat does not score, so it does not answer.';
  if (seat.kind === 'photographs' && look.medium === 'table') return 'Your seat sees photographs only. A live look is answered by seats that see the table.';
  if (slot?.seatId === seat.id && seat.interest !== '') {
    return `You take this place and have declared an interest (${seat.interest}), so the others answer: nobody settles a close call for her own pick. You see their answers when the batch closes.`;
  }
  return 'Your seat does not answer this look.';
}
