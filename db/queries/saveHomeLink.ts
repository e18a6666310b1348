import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { homeLink } from '../schemaAccess';

type Home = { readonly evaluationId: string; readonly puppyId: string; readonly at: number };

/** A puppy's home has one link: a fresh one (`tokenHash` null for none) ends the one before. */
export function saveHomeLink(db: Db, { evaluationId, puppyId, at }: Home, tokenHash: string | null): void {
  const same = and(eq(homeLink.evaluationId, evaluationId), eq(homeLink.puppyId, puppyId), isNull(homeLink.endedAt));
  db.update(homeLink).set({ endedAt: at }).where(same).run();
  if (tokenHash !== null) db.insert(homeLink).values({ tokenHash, evaluationId, puppyId, createdAt: at }).run();
}
