import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { homeLink } from '../schemaAccess';

/** Which puppy's note a home's link reads; undefined when unknown or ended. */
export function findHomeLink(db: Db, tokenHash: string) {
  return db
    .select({ evaluationId: homeLink.evaluationId, puppyId: homeLink.puppyId })
    .from(homeLink)
    .where(and(eq(homeLink.tokenHash, tokenHash), isNull(homeLink.endedAt)))
    .get();
}
