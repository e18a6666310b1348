import { and, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { audienceVersion } from '../schemaAfterReveal';

/** An audience's counter; 0 before its first change. */
export function getVersion(db: Db, evaluationId: string, audience: string): number {
  const row = db
    .select({ version: audienceVersion.version })
    .from(audienceVersion)
    .where(and(eq(audienceVersion.evaluationId, evaluationId), eq(audienceVersion.audience, audience)))
    .get();
  return row?.version ?? 0;
}
