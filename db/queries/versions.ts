import { and, eq, sql } from 'drizzle-orm';
import type { Db } from '../open';
import { prepareOnce } from '../transaction';
import { audienceVersion } from '../schema/record';

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

/** An audience's counter; 0 before its first change. */
export function getVersion(db: Db, evaluationId: string, audience: string): number {
  const row = db
    .select({ version: audienceVersion.version })
    .from(audienceVersion)
    .where(and(eq(audienceVersion.evaluationId, evaluationId), eq(audienceVersion.audience, audience)))
    .get();
  return row?.version ?? 0;
}

/** After a restore: no device can have seen numbers as high, so none takes what it holds for current (LV1). */
export function raiseVersions(db: Db): void {
  db.update(audienceVersion)
    .set({ version: sql`${audienceVersion.version} + 1000000` })
    .run();
}
