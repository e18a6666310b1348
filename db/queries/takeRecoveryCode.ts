import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { recoveryCode } from '../schemaAccess';

/** Uses a recovery code up; false when unknown or used. */
export function takeRecoveryCode(db: Db, codeHash: string, at: number): boolean {
  const unused = and(eq(recoveryCode.codeHash, codeHash), isNull(recoveryCode.usedAt));
  return db.update(recoveryCode).set({ usedAt: at }).where(unused).run().changes === 1;
}
