import { and, asc, desc, eq, ne, sql } from 'drizzle-orm';
import { z } from 'zod';
import { collarSchema } from '#lib/contract/collar';
import { idSchema } from '#lib/contract/fields';
import { type EvaluationInput, weightsSchema } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, RoundFacts } from '#lib/evaluation/facts';
import type { EvaluationPhase } from '#lib/evaluation/phase';
import { pickOrderWording } from '#lib/evaluation/pickOrder';
import type { Db } from '../open';
import { prepareOnce } from '../transaction';
import { evaluation, withdrawal } from '../schema/evaluations';
import { imported } from '../schema/imports';
import { litter, puppy } from '../schema/litters';
import { purpose, slot } from '../schema/plans';
import { round, showing } from '../schema/rounds';
import { sheet } from '../schema/sheets';
import { lookBatch } from '../schema/looks';
import { getPlan, listConfirmedSeats } from './plans';
import { listRoundCells } from './rounds';
import { listSeatFacts } from './seats';
import { parseSheet } from './sheets';

type EvaluationRow = typeof evaluation.$inferSelect;
type RoundRow = typeof round.$inferSelect;

const id = sql.placeholder('id');
const evaluationRow = prepareOnce((db) =>
  db
    .select({ row: evaluation, mark: imported })
    .from(evaluation)
    .leftJoin(imported, eq(imported.evaluationId, evaluation.id))
    .where(eq(evaluation.id, id))
    .prepare(),
);
const roundRows = prepareOnce((db) =>
  db.select().from(round).where(eq(round.evaluationId, id)).orderBy(asc(round.position)).prepare(),
);
const litterRow = prepareOnce((db) =>
  db
    .select({ id: litter.id, name: litter.name, breed: litter.breed, whelpedOn: litter.whelpedOn })
    .from(litter)
    .where(eq(litter.id, id))
    .prepare(),
);
const sheetRow = prepareOnce((db) => db.select({ body: sheet.body }).from(sheet).where(eq(sheet.id, id)).prepare());
const puppyRows = prepareOnce((db) =>
  db
    .select({
      id: puppy.id,
      name: puppy.name,
      sex: puppy.sex,
      collar: puppy.collar,
      secondMark: puppy.secondMark,
      withdrawnAt: withdrawal.at,
    })
    .from(puppy)
    .leftJoin(
      withdrawal,
      and(eq(withdrawal.puppyId, puppy.id), eq(withdrawal.evaluationId, sql.placeholder('evaluationId'))),
    )
    .where(eq(puppy.litterId, sql.placeholder('litterId')))
    .orderBy(asc(puppy.position))
    .prepare(),
);
const slotRows = prepareOnce((db) =>
  db
    .select({
      id: slot.id,
      taker: slot.taker,
      seatId: slot.seatId,
      purpose: slot.purpose,
      sex: slot.sex,
      condition: slot.condition,
      byWhen: slot.byWhen,
      ifFails: slot.ifFails,
    })
    .from(slot)
    .where(eq(slot.evaluationId, id))
    .orderBy(asc(slot.position))
    .prepare(),
);
const purposeRows = prepareOnce((db) =>
  db
    .select({ key: purpose.key, weights: purpose.weights })
    .from(purpose)
    .where(eq(purpose.evaluationId, id))
    .orderBy(asc(purpose.key))
    .prepare(),
);
const showingRows = prepareOnce((db) =>
  db
    .select({ id: showing.id, puppyId: showing.puppyId, place: showing.place, repeat: showing.repeat })
    .from(showing)
    .where(eq(showing.roundId, id))
    .orderBy(asc(showing.place))
    .prepare(),
);

const openBatchRow = prepareOnce((db) =>
  db
    .select({ id: lookBatch.id })
    .from(lookBatch)
    .where(and(eq(lookBatch.evaluationId, id), ne(lookBatch.state, 'revealed')))
    .limit(1)
    .prepare(),
);

const tableRow = prepareOnce((db) =>
  db
    .select({ phase: evaluation.phase, showingId: evaluation.tableShowingId, state: round.state })
    .from(evaluation)
    .leftJoin(round, eq(round.evaluationId, evaluation.id))
    .where(eq(evaluation.id, id))
    .orderBy(desc(round.position))
    .limit(1)
    .prepare(),
);

/** An evaluation's phase, and the showing on the table while a round is open; a small part of its facts, for every bell. Throws not-found. */
export function getTable(
  db: Db,
  evaluationId: string,
): { readonly phase: EvaluationPhase; readonly table: string | null } {
  const row = tableRow(db).get({ id: evaluationId });
  if (!row) throw new DomainError('not-found');
  return { phase: row.phase, table: row.state === 'open' ? row.showingId : null };
}

/** What the pick order is worded by: its places, and the seats that take them. */
export function getPickOrder(db: Db, evaluationId: string): Pick<EvaluationFacts, 'slots' | 'seats'> {
  return { slots: slotRows(db).all({ id: evaluationId }), seats: listSeatFacts(db, evaluationId, null) };
}

/** Everything about one evaluation that is no score. Throws not-found. */
export function getEvaluationFacts(db: Db, evaluationId: string): EvaluationFacts {
  const found = evaluationRow(db).get({ id: evaluationId });
  if (!found) throw new DomainError('not-found');
  const { row, mark } = found;
  const rounds = roundRows(db).all({ id: evaluationId });
  const newest = rounds.at(-1);
  const seats = listSeatFacts(db, evaluationId, newest?.id ?? null);
  const slots = slotRows(db).all({ id: evaluationId });
  return {
    id: row.id,
    name: row.name,
    litter: getLitter(db, row.litterId),
    sheetId: row.sheetId,
    sheet: parseSheet(db, row.frozenSheet ?? getSheetBody(db, row.sheetId)),
    heldOn: row.heldOn,
    medium: row.medium,
    callLink: row.callLink,
    callNumber: row.callNumber,
    tableNote: row.tableNote,
    phase: row.phase,
    order: parseIds(row.showingOrder),
    puppies: listPuppyFaces(db, row),
    seats,
    slots,
    purposes: listPurposes(db, evaluationId),
    plan: getPlan(db, evaluationId),
    confirmedSeatIds: listConfirmedSeats(db, evaluationId, pickOrderWording({ slots, seats })),
    round: newest ? roundFacts(db, newest, row.tableShowingId) : null,
    earlierRounds: rounds.slice(0, -1).map((earlier) => roundFacts(db, earlier, null)),
    openBatchId: openBatchRow(db).get({ id: evaluationId })?.id ?? null,
    imported: mark && { at: mark.at, writtenAt: mark.writtenAt, head: { seq: mark.headSeq, hash: mark.headHash } },
  };
}

function getLitter(db: Db, litterId: string): EvaluationFacts['litter'] {
  const row = litterRow(db).get({ id: litterId });
  if (!row) throw new DomainError('not-found');
  return row;
}

function getSheetBody(db: Db, sheetId: string): string {
  const row = sheetRow(db).get({ id: sheetId });
  if (!row) throw new DomainError('not-found');
  return row.body;
}

function listPuppyFaces(db: Db, row: EvaluationRow): EvaluationFacts['puppies'] {
  return puppyRows(db)
    .all({ evaluationId: row.id, litterId: row.litterId })
    .map(({ withdrawnAt, collar, ...face }) => ({
      ...face,
      collar: collarSchema.parse(collar),
      withdrawn: withdrawnAt !== null,
    }));
}

function listPurposes(db: Db, evaluationId: string): EvaluationFacts['purposes'] {
  return purposeRows(db)
    .all({ id: evaluationId })
    .map(({ key, weights }) => ({ key, weights: weightsSchema.parse(JSON.parse(weights)) }));
}

function roundFacts(db: Db, row: RoundRow, tableShowingId: string | null): RoundFacts {
  return {
    id: row.id,
    occasion: row.occasion,
    medium: row.medium,
    state: row.state,
    closedAt: row.closedAt,
    revealedAt: row.revealedAt,
    showings: showingRows(db)
      .all({ id: row.id })
      .map((one) => ({ ...one, repeat: one.repeat === 1 })),
    tableShowingId,
    cells: row.occasion === 'second' ? listRoundCells(db, row.id) : null,
  };
}

type NewEvaluation = EvaluationInput & {
  readonly id: string;
  readonly litterId: string;
  readonly sheetId: string;
  readonly order: readonly string[];
  readonly createdAt: number;
};

export function insertEvaluation(db: Db, { order, ...row }: NewEvaluation): void {
  db.insert(evaluation)
    .values({ ...row, phase: 'preparing', showingOrder: JSON.stringify(order) })
    .run();
}

/** Whether there is an evaluation under this id. */
export function hasEvaluation(db: Db, evaluationId: string): boolean {
  return evaluationRow(db).get({ id: evaluationId }) !== undefined;
}

/** All evaluations, newest first. */
export function listEvaluations(db: Db) {
  return db
    .select({
      id: evaluation.id,
      name: evaluation.name,
      litterName: litter.name,
      heldOn: evaluation.heldOn,
      phase: evaluation.phase,
      importedAt: imported.at,
    })
    .from(evaluation)
    .innerJoin(litter, eq(litter.id, evaluation.litterId))
    .leftJoin(imported, eq(imported.evaluationId, evaluation.id))
    .orderBy(desc(evaluation.heldOn), desc(evaluation.createdAt))
    .all();
}

/** Changes what was typed about an evaluation, and the sheet it uses. */
export function updateEvaluation(db: Db, id: string, input: EvaluationInput & { readonly sheetId: string }): void {
  db.update(evaluation).set(input).where(eq(evaluation.id, id)).run();
}

/** Moves an evaluation on; `sealedAt` is set with the last phase. */
export function setEvaluationPhase(
  db: Db,
  id: string,
  change: { readonly phase: EvaluationPhase; readonly at: number },
): void {
  const sealedAt = change.phase === 'sealed' ? { sealedAt: change.at } : {};
  db.update(evaluation)
    .set({ phase: change.phase, ...sealedAt })
    .where(eq(evaluation.id, id))
    .run();
}

export function setShowingOrder(db: Db, evaluationId: string, puppyIds: readonly string[]): void {
  db.update(evaluation)
    .set({ showingOrder: JSON.stringify(puppyIds) })
    .where(eq(evaluation.id, evaluationId))
    .run();
}

/** Which showing is on the table now. */
export function setTableShowing(db: Db, evaluationId: string, showingId: string | null): void {
  db.update(evaluation).set({ tableShowingId: showingId }).where(eq(evaluation.id, evaluationId)).run();
}

type Withdrawn = { readonly evaluationId: string; readonly puppyId: string };

/** A puppy out of this evaluation; its scores stay in the history. Again changes nothing. */
export function insertWithdrawal(db: Db, row: Withdrawn & { readonly reason: string; readonly at: number }): void {
  db.insert(withdrawal).values(row).onConflictDoNothing().run();
}

/** A puppy in this evaluation again. The row holds no score; that it was there stands in the record. */
export function deleteWithdrawal(db: Db, { evaluationId, puppyId }: Withdrawn): void {
  db.delete(withdrawal)
    .where(and(eq(withdrawal.evaluationId, evaluationId), eq(withdrawal.puppyId, puppyId)))
    .run();
}

const idsSchema = z.array(idSchema);

/** Ids kept as a JSON list in one column. */
function parseIds(json: string): string[] {
  return idsSchema.parse(JSON.parse(json));
}
