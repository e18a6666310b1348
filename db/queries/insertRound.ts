import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { evaluation, round, showing } from '../schema';

type NewRound = {
  readonly id: string;
  readonly evaluationId: string;
  readonly medium: 'table' | 'photographs';
  readonly frozenSheet: string;
  readonly openedAt: number;
  readonly showings: readonly { readonly id: string; readonly puppyId: string }[];
};

/** Opens the first round: its showings, in order, and the sheet frozen as it is now. */
export function insertRound(db: Db, row: NewRound): void {
  db.insert(round)
    .values({ id: row.id, evaluationId: row.evaluationId, position: 0, occasion: 'first', medium: row.medium, state: 'open', openedAt: row.openedAt })
    .run();
  row.showings.forEach(({ id, puppyId }, place) => db.insert(showing).values({ id, puppyId, place, roundId: row.id }).run());
  db.update(evaluation).set({ frozenSheet: row.frozenSheet }).where(eq(evaluation.id, row.evaluationId)).run();
}
