import { and, asc, count, eq, ne } from 'drizzle-orm';
import type { Cell } from '#lib/contract/plan';
import { DomainError } from '#lib/errors';
import type { RoundFacts } from '#lib/evaluation/facts';
import type { RoundState } from '#lib/evaluation/phase';
import type { Db } from '../open';
import { entry } from '../schema/entries';
import { evaluation } from '../schema/evaluations';
import { round, seatRound, showing } from '../schema/rounds';
import { roundCell } from '../schema/rounds';

type NewRound = {
  readonly id: string;
  readonly evaluationId: string;
  readonly occasion: RoundFacts['occasion'];
  readonly medium: 'table' | 'photographs';
  /** The sheet as JSON, frozen as it is now; null leaves the one frozen before. */
  readonly frozenSheet: string | null;
  readonly openedAt: number;
  /** Hides the hash of what the round is opened with. */
  readonly termsNonce: string;
  readonly showings: readonly { readonly id: string; readonly puppyId: string; readonly repeat: boolean }[];
  readonly cells: readonly Cell[];
};

/** Opens a round after those there are: its showings, in order, and a second round's cells. */
export function insertRound(db: Db, { showings, cells, frozenSheet, ...row }: NewRound): void {
  const position = db.select({ n: count() }).from(round).where(eq(round.evaluationId, row.evaluationId)).get()?.n ?? 0;
  db.insert(round)
    .values({ ...row, position, state: 'open' })
    .run();
  showings.forEach(({ repeat, ...one }, place) =>
    db
      .insert(showing)
      .values({ ...one, place, repeat: repeat ? 1 : 0, roundId: row.id })
      .run(),
  );
  for (const cell of cells)
    db.insert(roundCell)
      .values({ ...cell, roundId: row.id })
      .run();
  if (frozenSheet !== null) db.update(evaluation).set({ frozenSheet }).where(eq(evaluation.id, row.evaluationId)).run();
}

/** Moves a round from one state to another, and only from that one: a race ends in wrong-phase, not in two reveals. */
export function setRoundState(
  db: Db,
  roundId: string,
  move: { readonly from: RoundState; readonly to: RoundState; readonly at: number },
): void {
  const times = { open: { closedAt: null }, closed: { closedAt: move.at }, revealed: { revealedAt: move.at } }[move.to];
  const changed = db
    .update(round)
    .set({ state: move.to, ...times })
    .where(and(eq(round.id, roundId), eq(round.state, move.from)))
    .run();
  if (changed.changes !== 1) throw new DomainError('wrong-phase');
}

export function listRoundCells(db: Db, roundId: string): Cell[] {
  return db
    .select({ puppyId: roundCell.puppyId, criterion: roundCell.criterion })
    .from(roundCell)
    .where(eq(roundCell.roundId, roundId))
    .orderBy(asc(roundCell.puppyId), asc(roundCell.criterion))
    .all();
}

/** How many entries of a round came after lock or close. Asked only of a revealed round. */
export function countLateEntries(db: Db, roundId: string): number {
  return (
    db
      .select({ n: count() })
      .from(entry)
      .where(and(eq(entry.roundId, roundId), eq(entry.status, 'late')))
      .get()?.n ?? 0
  );
}

/** A reopened round has no locks, and every seat locks anew, but for one whose lock is to stand. */
export function voidLocks(db: Db, roundId: string, standing: string | null): void {
  db.update(seatRound)
    .set({ lockedAt: null })
    .where(and(eq(seatRound.roundId, roundId), ne(seatRound.seatId, standing ?? '')))
    .run();
}

/** Locks a seat's cards of a round. */
export function setSeatLock(
  db: Db,
  row: { readonly roundId: string; readonly seatId: string; readonly lockedAt: number },
): void {
  db.insert(seatRound)
    .values(row)
    .onConflictDoUpdate({ target: [seatRound.roundId, seatRound.seatId], set: { lockedAt: row.lockedAt } })
    .run();
}
