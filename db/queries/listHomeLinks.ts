import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { homeLink } from '../schemaAccess';

/** The puppies of an evaluation whose home has a link. */
export function listHomeLinks(db: Db, evaluationId: string): string[] {
  const open = and(eq(homeLink.evaluationId, evaluationId), isNull(homeLink.endedAt));
  return db.select({ puppyId: homeLink.puppyId }).from(homeLink).where(open).orderBy(homeLink.puppyId).all().map((row) => row.puppyId);
}
