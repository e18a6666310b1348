import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { device } from '../schema';

/** Whether an owner ever had a session, ended ones included. */
export function ownerHasSignedIn(db: Db): boolean {
  return db.select({ id: device.id }).from(device).where(eq(device.owner, 1)).limit(1).get() !== undefined;
}
