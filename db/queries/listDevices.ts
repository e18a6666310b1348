import { and, asc, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { device } from '../schema';

/** The devices with a session of one seat, or of the owner (null), oldest first. */
export function listDevices(db: Db, seatId: string | null) {
  const of = seatId === null ? eq(device.owner, 1) : eq(device.seatId, seatId);
  return db
    .select({ id: device.id, createdAt: device.createdAt, seenAt: device.seenAt, cameBy: device.cameBy, owner: device.owner })
    .from(device)
    .where(and(of, isNull(device.revokedAt)))
    .orderBy(asc(device.createdAt), asc(device.id))
    .all()
    .map((row) => ({ ...row, owner: row.owner === 1 }));
}
