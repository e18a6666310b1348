import { and, eq } from 'drizzle-orm';
import { DomainError } from '#lib/errors';
import type { RoundState } from '#lib/evaluation/phase';
import type { Db } from '../open';
import { round } from '../schema';

/** Moves a round from one state to another, and only from that one: a race ends in wrong-phase, not in two reveals. */
export function setRoundState(db: Db, roundId: string, move: { readonly from: RoundState; readonly to: RoundState; readonly at: number }): void {
  const times = { open: { closedAt: null }, closed: { closedAt: move.at }, revealed: { revealedAt: move.at } }[move.to];
  const changed = db
    .update(round)
    .set({ state: move.to, ...times })
    .where(and(eq(round.id, roundId), eq(round.state, move.from)))
    .run();
  if (changed.changes !== 1) throw new DomainError('wrong-phase');
}
