import { sql } from 'drizzle-orm';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { audienceVersion } from '../schemaAfterReveal';

const raise = prepareOnce((db) =>
  db
    .insert(audienceVersion)
    .values({ evaluationId: sql.placeholder('evaluationId'), audience: sql.placeholder('audience'), version: 1 })
    .onConflictDoUpdate({
      target: [audienceVersion.evaluationId, audienceVersion.audience],
      set: { version: sql`${audienceVersion.version} + 1` },
    })
    .returning({ version: audienceVersion.version })
    .prepare(),
);

/** Raises an audience's counter by one and returns it. Audiences: `all`, or `seat:` and a seat's id. */
export function bumpVersion(db: Db, evaluationId: string, audience: string): number {
  return raise(db).get({ evaluationId, audience }).version;
}
