import { and, eq, isNull, sql } from 'drizzle-orm';
import type { Db } from '../open';
import { passphrase, recoveryCode } from '../schema/devices';

/** The owner's passphrase as it is kept, and since when; undefined when she has set none. */
export function getPassphrase(db: Db) {
  return db.select({ kept: passphrase.kept, setAt: passphrase.setAt }).from(passphrase).get();
}

type NewPassphrase = { readonly kept: string; readonly codeHashes: readonly string[]; readonly at: number };

/** The passphrase, and fresh recovery codes instead of all earlier ones. */
export function savePassphrase(db: Db, { kept, codeHashes, at }: NewPassphrase): void {
  const set = { kept, setAt: at };
  db.insert(passphrase)
    .values({ id: 1, ...set })
    .onConflictDoUpdate({ target: passphrase.id, set })
    .run();
  db.delete(recoveryCode).run();
  for (const codeHash of codeHashes) db.insert(recoveryCode).values({ codeHash, createdAt: at }).run();
}

/** Uses a recovery code up; false when unknown or used. */
export function takeRecoveryCode(db: Db, codeHash: string, at: number): boolean {
  const unused = and(eq(recoveryCode.codeHash, codeHash), isNull(recoveryCode.usedAt));
  return db.update(recoveryCode).set({ usedAt: at }).where(unused).run().changes === 1;
}

/** How many recovery codes are still unused. */
export function countRecoveryCodes(db: Db): number {
  return db.select({ n: sql<number>`count(*)` }).from(recoveryCode).where(isNull(recoveryCode.usedAt)).get()?.n ?? 0;
}
