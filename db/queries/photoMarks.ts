import { and, asc, eq, isNull, or, sql, type SQL } from 'drizzle-orm';
import {
  type BreedFigureInput,
  breedFigureSchema,
  type Measurement,
  measurementInputSchema,
  type PhotoMarks,
  type Pointer,
} from '#lib/contract/photo';
import type { Db } from '../open';
import { round } from '../schema/rounds';
import { breedFigure } from '../schema/litters';
import { photo, photoMeasurement, photoPointer, pointerRemoval } from '../schema/photos';
import { sameIssue } from './devices';
import { isHeld, isReleased, type MarkReader } from './isReleased';

/** When the evaluation's first reveal was; null before it. What is made in the same millisecond is not called blind. */
const firstReveal = sql<
  number | null
>`(SELECT min(${round.revealedAt}) FROM ${round} WHERE ${round.evaluationId} = ${photo.evaluationId} AND ${round.occasion} <> 'practice')`;

const isBlind = (at: number, reveal: number | null): boolean => reveal === null || at < reveal;

type Chosen = {
  readonly evaluationId: string;
  readonly pointers: SQL | undefined;
  readonly measurements: SQL | undefined;
  /** Which marks count as there although their seat took them back; left out, none do. */
  readonly takenBack?: SQL | undefined;
};

/** Marks and measurements that a condition chooses, on the pictures of one evaluation that are still there. */
export function photoMarkRows(db: Db, chosen: Chosen): PhotoMarks {
  return { pointers: pointerRows(db, chosen), measurements: measurementRows(db, chosen) };
}

function pointerRows(db: Db, { evaluationId, pointers, takenBack }: Chosen): Pointer[] {
  const there = takenBack === undefined ? isNull(pointerRemoval.at) : or(isNull(pointerRemoval.at), takenBack);
  return db
    .select({ row: photoPointer, held: isHeld(db, evaluationId, photoPointer), reveal: firstReveal })
    .from(photoPointer)
    .innerJoin(photo, eq(photo.id, photoPointer.photoId))
    .leftJoin(pointerRemoval, eq(pointerRemoval.pointerId, photoPointer.id))
    .where(and(eq(photo.evaluationId, evaluationId), isNull(photo.removedAt), there, pointers))
    .orderBy(asc(photoPointer.at), asc(photoPointer.id))
    .all()
    .map(({ row: { id, photoId, seatId, kind, x, y, toX, toY, note, at }, held, reveal }) => ({
      id,
      photoId,
      seat: seatId,
      kind,
      from: { x, y },
      to: { x: toX, y: toY },
      note,
      at,
      held: held === 1,
      blind: isBlind(at, reveal),
    }));
}

function measurementRows(db: Db, { evaluationId, measurements }: Chosen): Measurement[] {
  return db
    .select({ row: photoMeasurement, held: isHeld(db, evaluationId, photoMeasurement), reveal: firstReveal })
    .from(photoMeasurement)
    .innerJoin(photo, eq(photo.id, photoMeasurement.photoId))
    .where(and(eq(photo.evaluationId, evaluationId), isNull(photo.removedAt), measurements))
    .orderBy(asc(photoMeasurement.at), asc(photoMeasurement.id))
    .all()
    .map(({ row: { id, photoId, seatId, body, at }, held, reveal }) => ({
      id,
      photoId,
      seat: seatId,
      at,
      held: held === 1,
      blind: isBlind(at, reveal),
      ...measurementInputSchema.parse(JSON.parse(body)),
    }));
}

/** Keeps a mark; the same id again changes nothing (SC2). */
export function insertPointer(db: Db, row: typeof photoPointer.$inferInsert): void {
  db.insert(photoPointer).values(row).onConflictDoNothing().run();
}

/** A mark taken back by its own seat: kept, and shown no more. */
export function removePointer(db: Db, row: typeof pointerRemoval.$inferInsert): void {
  db.insert(pointerRemoval).values(row).onConflictDoNothing().run();
}

/** Keeps a measurement; the same id again changes nothing (SC2). */
export function insertMeasurement(db: Db, row: typeof photoMeasurement.$inferInsert): void {
  db.insert(photoMeasurement).values(row).onConflictDoNothing().run();
}

type Own = MarkReader & { readonly evaluationId: string; readonly seatId: string };

/** What one seat itself put on the pictures of an evaluation; what is not told yet, to the devices of its issue alone (BL9). */
export function listOwnMarks(db: Db, { evaluationId, seatId, onlyDevice }: Own): PhotoMarks {
  const of = (table: typeof photoPointer | typeof photoMeasurement): SQL | undefined =>
    and(
      eq(table.seatId, seatId),
      onlyDevice === null
        ? undefined
        : or(isReleased(db, evaluationId, table), sameIssue(db, table.deviceId, onlyDevice)),
    );
  return photoMarkRows(db, { evaluationId, pointers: of(photoPointer), measurements: of(photoMeasurement) });
}

export function listBreedFigures(db: Db, litterId: string): BreedFigureInput[] {
  return db
    .select({ ratio: breedFigure.ratio, low: breedFigure.low, high: breedFigure.high, source: breedFigure.source })
    .from(breedFigure)
    .where(eq(breedFigure.litterId, litterId))
    .orderBy(asc(breedFigure.ratio))
    .all()
    .map((row) => breedFigureSchema.parse(row));
}

/** One figure a litter and ratio; a later one takes its place. */
export function saveBreedFigure(db: Db, row: typeof breedFigure.$inferInsert): void {
  const { low, high, source, confirmedAt } = row;
  db.insert(breedFigure)
    .values(row)
    .onConflictDoUpdate({ target: [breedFigure.litterId, breedFigure.ratio], set: { low, high, source, confirmedAt } })
    .run();
}
