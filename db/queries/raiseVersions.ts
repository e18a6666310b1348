import { sql } from 'drizzle-orm';
import type { Db } from '../open';
import { audienceVersion } from '../schemaAfterReveal';

/** After a restore: no device can have seen numbers as high, so none takes what it holds for current (LV1). */
export function raiseVersions(db: Db): void {
  db.update(audienceVersion).set({ version: sql`${audienceVersion.version} + 1000000` }).run();
}
