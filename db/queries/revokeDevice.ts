import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { device } from '../schema';

export function revokeDevice(db: Db, id: string, at: number): void {
  db.update(device).set({ revokedAt: at }).where(eq(device.id, id)).run();
}
