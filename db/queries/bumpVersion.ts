import { sql } from 'drizzle-orm';
import type { Db } from '../open';
import { audienceVersion } from '../schemaAfterReveal';

/** Raises an audience's counter by one and returns it. Audiences: `all`, or `seat:` and a seat's id. */
export function bumpVersion(db: Db, evaluationId: string, audience: string): number {
  return db
    .insert(audienceVersion)
    .values({ evaluationId, audience, version: 1 })
    .onConflictDoUpdate({
      target: [audienceVersion.evaluationId, audienceVersion.audience],
      set: { version: sql`${audienceVersion.version} + 1` },
    })
    .returning({ version: audienceVersion.version })
    .get().version;
}
