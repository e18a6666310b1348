import { isRescoring } from '../_parts/isRescoring';
import type { DecideProps } from './PicksSection';

/** Whose turn it is, in one sentence. */
export function waitingForWords({ evaluation, revealed, faces }: DecideProps): string {
  const { nextSlotId, mayDecide } = revealed.decision;
  if (evaluation.phase === 'sealed') return 'All picks are made and sealed.';
  if (evaluation.slots.length === 0) return 'No place was set up, so there is nothing to pick.';
  const slot = nextSlotId === null ? undefined : faces.slot(nextSlotId);
  if (!slot) return 'Every place is picked.';
  if (isRescoring(evaluation)) return 'A second round is under way: picks wait until it is revealed.';
  if (evaluation.lookOpen) return 'A second look is open: picks wait until it is closed.';
  const turn = `Place ${faces.place(slot.id)} is up: ${slot.taker}.`;
  return mayDecide ? `${turn} You can enter the pick.` : `${turn} ${slot.seatId === null ? 'The owner enters the pick.' : 'Its own seat or the owner enters the pick.'}`;
}
