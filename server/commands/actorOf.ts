import type { Viewer } from '#lib/evaluation/facts';
import { seatName } from './seatName';

/** How the record names who acted: the owner, or the seat. */
export function actorOf({ owner, seatId }: Viewer): string {
  return owner || seatId === null ? 'owner' : seatName(seatId);
}
