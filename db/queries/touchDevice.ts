import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { device } from '../schema';

/** The device was heard of just now. */
export function touchDevice(db: Db, id: string, at: number): void {
  db.update(device).set({ seenAt: at }).where(eq(device.id, id)).run();
}
