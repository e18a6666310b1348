import type { SessionView } from '#lib/contract/sessionView';

/** Where a device with a place goes first. */
export function homeOf({ owner, seat }: Pick<SessionView, 'owner' | 'seat'>): string {
  return owner || !seat ? '/' : `/score?id=${seat.evaluationId}`;
}
