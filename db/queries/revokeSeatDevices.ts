import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { device } from '../schema';

/** Ends every session of a seat; returns the devices that had one. */
export function revokeSeatDevices(db: Db, seatId: string, at: number): string[] {
  return db
    .update(device)
    .set({ revokedAt: at })
    .where(and(eq(device.seatId, seatId), isNull(device.revokedAt)))
    .returning({ id: device.id })
    .all()
    .map((row) => row.id);
}
