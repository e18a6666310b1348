import { and, eq, inArray, type Column, type SQL } from 'drizzle-orm';
import type { Db } from '../open';
import { device } from '../schema';

/** Holds for what was made by this device or by one of the same issue of its seat: they let each other in, so they are one person (BL9). */
export function sameIssue(db: Db, made: Column, deviceId: string): SQL {
  const own = db.select({ seatId: device.seatId, generation: device.generation }).from(device).where(eq(device.id, deviceId)).get();
  if (!own || own.seatId === null) return eq(made, deviceId);
  const issue = db.select({ id: device.id }).from(device).where(and(eq(device.seatId, own.seatId), eq(device.generation, own.generation)));
  return inArray(made, issue);
}
