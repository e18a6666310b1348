import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { link } from '../schema';

/** What a link or code is for, without using it up. */
export function findLink(db: Db, tokenHash: string) {
  return db.select({ kind: link.kind, seatId: link.seatId }).from(link).where(eq(link.tokenHash, tokenHash)).get();
}
