import { and, asc, eq, ne, sql } from 'drizzle-orm';
import type { SlotView } from '#lib/contract/evaluationView';
import { type Plan, usualPlan } from '#lib/contract/plan';
import type { Purpose } from '#lib/contract/setup';
import type { Db } from '../open';
import { prepareOnce } from '../transaction';
import { purpose, slot } from '../schema/plans';
import { confirmation, plan } from '../schema/plans';

const planRow = prepareOnce((db) =>
  db
    .select()
    .from(plan)
    .where(eq(plan.evaluationId, sql.placeholder('evaluationId')))
    .prepare(),
);

/** The plan of an evaluation; the usual one where nothing else was said. */
export function getPlan(db: Db, evaluationId: string): Plan {
  const row = planRow(db).get({ evaluationId });
  if (!row) return usualPlan;
  return {
    kind: row.kind,
    learnerSeatId: row.learnerSeatId,
    discussion: row.discussion,
    identity: row.identity,
    silentRepeat: row.silentRepeat === 1,
    hoursSinceMeal: row.hoursSinceMeal,
    lookBatches: row.lookBatches,
  };
}

export function savePlan(db: Db, evaluationId: string, { silentRepeat, ...rest }: Plan): void {
  const row = { ...rest, silentRepeat: silentRepeat ? 1 : 0 };
  db.insert(plan)
    .values({ ...row, evaluationId })
    .onConflictDoUpdate({ target: plan.evaluationId, set: row })
    .run();
}

export function replacePurposes(db: Db, evaluationId: string, purposes: readonly Purpose[]): void {
  db.delete(purpose).where(eq(purpose.evaluationId, evaluationId)).run();
  for (const { key, weights } of purposes)
    db.insert(purpose)
      .values({ evaluationId, key, weights: JSON.stringify(weights) })
      .run();
}

/** The pick order, in order. */
export function replaceSlots(db: Db, evaluationId: string, slots: readonly SlotView[]): void {
  db.delete(slot).where(eq(slot.evaluationId, evaluationId)).run();
  slots.forEach((one, position) =>
    db
      .insert(slot)
      .values({ ...one, evaluationId, position })
      .run(),
  );
}

const seatRows = prepareOnce((db) =>
  db
    .select({ seatId: confirmation.seatId })
    .from(confirmation)
    .where(
      and(
        eq(confirmation.evaluationId, sql.placeholder('evaluationId')),
        eq(confirmation.wording, sql.placeholder('wording')),
      ),
    )
    .orderBy(asc(confirmation.seatId))
    .prepare(),
);

/** Seats whose last confirmation was of exactly this wording of the pick order. */
export function listConfirmedSeats(db: Db, evaluationId: string, wording: string): string[] {
  return seatRows(db)
    .all({ evaluationId, wording })
    .map((row) => row.seatId);
}

/** The newest confirmation of a seat takes the place of an earlier one: the record keeps that each was given. */
export function saveConfirmation(db: Db, row: typeof confirmation.$inferInsert): void {
  db.insert(confirmation)
    .values(row)
    .onConflictDoUpdate({
      target: [confirmation.evaluationId, confirmation.seatId],
      set: { wording: row.wording, at: row.at },
    })
    .run();
}

/** The same pick order in other words, as when a name was removed from it: what was confirmed stays so, and older wordings go. */
export function rewordConfirmations(
  db: Db,
  evaluationId: string,
  { from, to }: { readonly from: string; readonly to: string },
): void {
  const of = eq(confirmation.evaluationId, evaluationId);
  db.update(confirmation)
    .set({ wording: '' })
    .where(and(of, ne(confirmation.wording, from)))
    .run();
  db.update(confirmation)
    .set({ wording: to })
    .where(and(of, eq(confirmation.wording, from)))
    .run();
}
