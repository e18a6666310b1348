import { and, asc, eq, isNull, sql } from 'drizzle-orm';
import type { SeatFacts } from '#lib/evaluation/facts';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { device, link, seat, seatRound } from '../schema';

const seatRows = prepareOnce((db) => {
  const held = db.select({ n: sql<number>`count(*)` }).from(device).where(and(eq(device.seatId, seat.id), isNull(device.revokedAt)));
  const ever = db.select({ n: sql<number>`coalesce(max(${device.generation}), 0)` }).from(device).where(eq(device.seatId, seat.id));
  const waiting = db.select({ n: sql<number>`count(*)` }).from(link).where(and(eq(link.seatId, seat.id), eq(link.kind, 'seat'), isNull(link.usedAt)));
  return db
    .select({ row: seat, held: sql<number>`(${held})`, ever: sql<number>`(${ever})`, waiting: sql<number>`(${waiting})`, lockedAt: seatRound.lockedAt })
    .from(seat)
    .leftJoin(seatRound, and(eq(seatRound.seatId, seat.id), eq(seatRound.roundId, sql.placeholder('roundId'))))
    .where(eq(seat.evaluationId, sql.placeholder('evaluationId')))
    .orderBy(asc(seat.position))
    .prepare();
});

/** The seats of an evaluation with where they stand in one round; `roundId` null while there is none. */
export function listSeatFacts(db: Db, evaluationId: string, roundId: string | null): SeatFacts[] {
  return seatRows(db)
    .all({ evaluationId, roundId: roundId ?? '' })
    .map(({ row, held: devices, ever: issued, waiting: links, lockedAt }) => ({
      id: row.id,
      position: row.position,
      label: row.label,
      kind: row.kind,
      leads: row.leads === 1,
      picks: row.picks === 1,
      organises: row.organises === 1,
      reads: row.reads === 1,
      interest: row.interest,
      owner: row.owner === 1,
      joined: row.owner === 1 || devices > 0,
      issued: row.owner === 1 ? 0 : issued,
      lockedAt,
      linkWaiting: links > 0,
    }));
}
