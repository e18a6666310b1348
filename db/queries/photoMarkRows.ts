import { and, asc, eq, isNull, or, sql, type SQL } from 'drizzle-orm';
import { measurementInputSchema, type Measurement, type PhotoMarks, type Pointer } from '#lib/contract/photo';
import type { Db } from '../open';
import { round } from '../schema';
import { photo, photoMeasurement, photoPointer, pointerRemoval } from '../schemaPhoto';
import { isHeld } from './isReleased';

/** When the evaluation's first reveal was; null before it. What is made in the same millisecond is not called blind. */
const firstReveal = sql<number | null>`(SELECT min(${round.revealedAt}) FROM ${round} WHERE ${round.evaluationId} = ${photo.evaluationId} AND ${round.occasion} <> 'practice')`;

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
      id, photoId, seat: seatId, kind, from: { x, y }, to: { x: toX, y: toY }, note, at, held: held === 1, blind: isBlind(at, reveal),
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
      id, photoId, seat: seatId, at, held: held === 1, blind: isBlind(at, reveal), ...measurementInputSchema.parse(JSON.parse(body)),
    }));
}
