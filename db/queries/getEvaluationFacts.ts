import { and, asc, eq } from 'drizzle-orm';
import type { EvaluationFacts, RoundFacts } from '#lib/evaluation/facts';
import { pickOrderWording } from '#lib/evaluation/pickOrderWording';
import { DomainError } from '#lib/errors';
import { collarSchema } from '#lib/contract/collar';
import { weightsSchema } from '#lib/contract/setup';
import type { Db } from '../open';
import { evaluation, litter, puppy, purpose, round, sheet, showing, slot, withdrawal } from '../schema';
import { getPlan } from './getPlan';
import { listConfirmedSeats } from './listConfirmedSeats';
import { listRoundCells } from './listRoundCells';
import { listSeatFacts } from './listSeatFacts';
import { parseIds } from './parseIds';
import { parseSheet } from './parseSheet';

type EvaluationRow = typeof evaluation.$inferSelect;

/** Everything about one evaluation that is no score. Throws not-found. */
export function getEvaluationFacts(db: Db, id: string): EvaluationFacts {
  const row = db.select().from(evaluation).where(eq(evaluation.id, id)).get();
  if (!row) throw new DomainError('not-found');
  const rounds = db.select().from(round).where(eq(round.evaluationId, id)).orderBy(asc(round.position)).all();
  const newest = rounds.at(-1);
  const seats = listSeatFacts(db, id, newest?.id ?? null);
  const slots = listSlots(db, id);
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
    purposes: listPurposes(db, id),
    plan: getPlan(db, id),
    confirmedSeatIds: listConfirmedSeats(db, id, pickOrderWording({ slots, seats })),
    round: newest ? roundFacts(db, newest, row.tableShowingId) : null,
    earlierRounds: rounds.slice(0, -1).map((earlier) => roundFacts(db, earlier, null)),
  };
}

function getLitter(db: Db, id: string): EvaluationFacts['litter'] {
  const row = db.select().from(litter).where(eq(litter.id, id)).get();
  if (!row) throw new DomainError('not-found');
  return { id: row.id, name: row.name, breed: row.breed, whelpedOn: row.whelpedOn };
}

function getSheetBody(db: Db, id: string): string {
  const row = db.select({ body: sheet.body }).from(sheet).where(eq(sheet.id, id)).get();
  if (!row) throw new DomainError('not-found');
  return row.body;
}

function listPuppyFaces(db: Db, row: EvaluationRow): EvaluationFacts['puppies'] {
  return db
    .select({ id: puppy.id, name: puppy.name, sex: puppy.sex, collar: puppy.collar, secondMark: puppy.secondMark, withdrawnAt: withdrawal.at })
    .from(puppy)
    .leftJoin(withdrawal, and(eq(withdrawal.puppyId, puppy.id), eq(withdrawal.evaluationId, row.id)))
    .where(eq(puppy.litterId, row.litterId))
    .orderBy(asc(puppy.position))
    .all()
    .map(({ withdrawnAt, collar, ...face }) => ({ ...face, collar: collarSchema.parse(collar), withdrawn: withdrawnAt !== null }));
}

function listSlots(db: Db, id: string): EvaluationFacts['slots'] {
  return db
    .select({
      id: slot.id, taker: slot.taker, seatId: slot.seatId, purpose: slot.purpose, sex: slot.sex,
      condition: slot.condition, byWhen: slot.byWhen, ifFails: slot.ifFails,
    })
    .from(slot)
    .where(eq(slot.evaluationId, id))
    .orderBy(asc(slot.position))
    .all();
}

function listPurposes(db: Db, id: string): EvaluationFacts['purposes'] {
  return db
    .select({ key: purpose.key, weights: purpose.weights })
    .from(purpose)
    .where(eq(purpose.evaluationId, id))
    .orderBy(asc(purpose.key))
    .all()
    .map(({ key, weights }) => ({ key, weights: weightsSchema.parse(JSON.parse(weights)) }));
}

function roundFacts(db: Db, row: typeof round.$inferSelect, tableShowingId: string | null): RoundFacts {
  const showings = db
    .select({ id: showing.id, puppyId: showing.puppyId, place: showing.place, repeat: showing.repeat })
    .from(showing)
    .where(eq(showing.roundId, row.id))
    .orderBy(asc(showing.place))
    .all();
  return {
    id: row.id,
    occasion: row.occasion,
    medium: row.medium,
    state: row.state,
    closedAt: row.closedAt,
    revealedAt: row.revealedAt,
    showings: showings.map((one) => ({ ...one, repeat: one.repeat === 1 })),
    tableShowingId,
    cells: row.occasion === 'second' ? listRoundCells(db, row.id) : null,
  };
}
