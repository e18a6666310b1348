import { isNull, sql } from 'drizzle-orm';
import type { Db } from '../open';
import { recoveryCode } from '../schemaAccess';

/** How many recovery codes are still unused. */
export function countRecoveryCodes(db: Db): number {
  return db.select({ n: sql<number>`count(*)` }).from(recoveryCode).where(isNull(recoveryCode.usedAt)).get()?.n ?? 0;
}
