import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { link } from '../schema';

/** Uses a link up (BL9: it dies at first use) and says what it was for; undefined when unknown or used. */
export function takeLink(db: Db, tokenHash: string, at: number) {
  return db
    .update(link)
    .set({ usedAt: at })
    .where(and(eq(link.tokenHash, tokenHash), isNull(link.usedAt)))
    .returning({ kind: link.kind, seatId: link.seatId })
    .get();
}
