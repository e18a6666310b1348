import { and, eq, gt, isNull, or } from 'drizzle-orm';
import type { Db } from '../open';
import { link } from '../schema';

/** Uses a link or code up (BL9: it dies at first use) and says what it was for; undefined when unknown, used or out of time. */
export function takeLink(db: Db, tokenHash: string, at: number) {
  return db
    .update(link)
    .set({ usedAt: at })
    .where(and(eq(link.tokenHash, tokenHash), isNull(link.usedAt), or(isNull(link.expiresAt), gt(link.expiresAt, at))))
    .returning({ kind: link.kind, seatId: link.seatId })
    .get();
}
