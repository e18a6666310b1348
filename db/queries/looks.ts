import { and, asc, count, desc, eq, max, ne } from 'drizzle-orm';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { look, lookAnswer, lookBatch } from '../schema/looks';
import { sameIssue } from './devices';

export type LookRow = {
  readonly id: string;
  readonly batchId: string;
  readonly slotId: string;
  readonly medium: 'table' | 'photographs';
  readonly state: 'open' | 'closed' | 'revealed';
  readonly firstPuppyId: string;
  readonly secondPuppyId: string;
  readonly firstOnLeft: boolean;
  readonly repeat: boolean;
};

/** All second looks of an evaluation, oldest first, without a single answer. */
export function listLooks(db: Db, evaluationId: string): LookRow[] {
  return db
    .select({
      id: look.id,
      batchId: look.batchId,
      slotId: lookBatch.slotId,
      medium: lookBatch.medium,
      state: lookBatch.state,
      firstPuppyId: look.firstPuppyId,
      secondPuppyId: look.secondPuppyId,
      firstOnLeft: look.firstOnLeft,
      repeat: look.repeat,
    })
    .from(look)
    .innerJoin(lookBatch, eq(lookBatch.id, look.batchId))
    .where(eq(lookBatch.evaluationId, evaluationId))
    .orderBy(asc(lookBatch.position), asc(look.position))
    .all()
    .map((row) => ({ ...row, firstOnLeft: row.firstOnLeft === 1, repeat: row.repeat === 1 }));
}

type NewLook = {
  readonly id: string;
  readonly firstPuppyId: string;
  readonly secondPuppyId: string;
  readonly firstOnLeft: boolean;
  readonly repeat: boolean;
};
type NewBatch = {
  readonly id: string;
  readonly evaluationId: string;
  readonly slotId: string;
  readonly medium: 'table' | 'photographs';
  readonly openedAt: number;
  readonly looks: readonly NewLook[];
};

/** Opens a batch with its looks fixed (BL8). */
export function insertLookBatch(db: Db, { looks, ...row }: NewBatch): void {
  const position =
    db.select({ n: count() }).from(lookBatch).where(eq(lookBatch.evaluationId, row.evaluationId)).get()?.n ?? 0;
  db.insert(lookBatch)
    .values({ ...row, position, state: 'open' })
    .run();
  looks.forEach((one, place) =>
    db
      .insert(look)
      .values({
        ...one,
        batchId: row.id,
        position: place,
        firstOnLeft: one.firstOnLeft ? 1 : 0,
        repeat: one.repeat ? 1 : 0,
      })
      .run(),
  );
}

/** Which seats have answered a look, never what: closes the look with the last awaited answer. Leaves no view. */
export function listLookSeats(db: Db, lookId: string): ReadonlySet<string> {
  const rows = db
    .selectDistinct({ seatId: lookAnswer.seatId })
    .from(lookAnswer)
    .where(eq(lookAnswer.lookId, lookId))
    .all();
  return new Set(rows.map((row) => row.seatId));
}

/** How many batches of second looks have been closed, by slot. */
export function closedBatches(db: Db, evaluationId: string): Record<string, number> {
  const rows = db
    .select({ slotId: lookBatch.slotId, n: count() })
    .from(lookBatch)
    .where(and(eq(lookBatch.evaluationId, evaluationId), eq(lookBatch.state, 'revealed')))
    .groupBy(lookBatch.slotId)
    .all();
  return Object.fromEntries(rows.map(({ slotId, n }) => [slotId, n]));
}

/** Reveals a batch that is open, closing it in the same step, or that a restore brought back closed; a second time is wrong-phase. */
export function revealLookBatch(db: Db, batchId: string, at: number): void {
  const changed = db
    .update(lookBatch)
    .set({ state: 'revealed', revealedAt: at })
    .where(and(eq(lookBatch.id, batchId), ne(lookBatch.state, 'revealed')))
    .run();
  if (changed.changes !== 1) throw new DomainError('wrong-phase');
}

type NewAnswer = {
  readonly id: string;
  readonly lookId: string;
  readonly seatId: string;
  readonly deviceId: string;
  readonly choice: 'first' | 'second' | 'tie';
  readonly criterion: string | null;
  readonly madeAt: number;
  readonly receivedAt: number;
};

/** Keeps one answer; the same id again changes nothing (SC2). Returns whether it was new. */
export function insertLookAnswer(db: Db, row: NewAnswer): boolean {
  const last = db
    .select({ seq: max(lookAnswer.seq) })
    .from(lookAnswer)
    .get();
  return (
    db
      .insert(lookAnswer)
      .values({ ...row, seq: (last?.seq ?? 0) + 1 })
      .onConflictDoNothing()
      .run().changes === 1
  );
}

type OwnLook = {
  readonly lookId: string;
  readonly seatId: string;
  /** Only what this device and those of the same issue answered (BL9: the new device of a reissued seat); null for any of the seat's. */
  readonly deviceId: string | null;
};

/** BL1: one seat's own newest answer to one look. */
export function findOwnLookAnswer(db: Db, { lookId, seatId, deviceId }: OwnLook) {
  return db
    .select({ choice: lookAnswer.choice, criterion: lookAnswer.criterion })
    .from(lookAnswer)
    .where(
      and(
        eq(lookAnswer.lookId, lookId),
        eq(lookAnswer.seatId, seatId),
        deviceId === null ? undefined : sameIssue(db, lookAnswer.deviceId, deviceId),
      ),
    )
    .orderBy(desc(lookAnswer.seq))
    .limit(1)
    .get();
}

/** Closes the open batches of an evaluation that are not among `but`, without showing an answer; says for which places they were. */
export function stopLookBatches(db: Db, evaluationId: string, but: ReadonlySet<string>): string[] {
  return db
    .select({ id: lookBatch.id, slotId: lookBatch.slotId })
    .from(lookBatch)
    .where(and(eq(lookBatch.evaluationId, evaluationId), eq(lookBatch.state, 'open')))
    .all()
    .filter(({ id }) => !but.has(id))
    .map(({ id, slotId }) => {
      db.update(lookBatch).set({ state: 'closed' }).where(eq(lookBatch.id, id)).run();
      return slotId;
    });
}
