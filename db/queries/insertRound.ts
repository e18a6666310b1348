import { count, eq } from 'drizzle-orm';
import type { Cell } from '#lib/contract/plan';
import type { RoundFacts } from '#lib/evaluation/facts';
import type { Db } from '../open';
import { evaluation, round, showing } from '../schema';
import { roundCell } from '../schemaPlan';

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
  db.insert(round).values({ ...row, position, state: 'open' }).run();
  showings.forEach(({ repeat, ...one }, place) => db.insert(showing).values({ ...one, place, repeat: repeat ? 1 : 0, roundId: row.id }).run());
  for (const cell of cells) db.insert(roundCell).values({ ...cell, roundId: row.id }).run();
  if (frozenSheet !== null) db.update(evaluation).set({ frozenSheet }).where(eq(evaluation.id, row.evaluationId)).run();
}
