import type { Db } from '../open';
import { passphrase, recoveryCode } from '../schemaAccess';

type NewPassphrase = { readonly kept: string; readonly codeHashes: readonly string[]; readonly at: number };

/** The passphrase, and fresh recovery codes instead of all earlier ones. */
export function savePassphrase(db: Db, { kept, codeHashes, at }: NewPassphrase): void {
  const set = { kept, setAt: at };
  db.insert(passphrase).values({ id: 1, ...set }).onConflictDoUpdate({ target: passphrase.id, set }).run();
  db.delete(recoveryCode).run();
  for (const codeHash of codeHashes) db.insert(recoveryCode).values({ codeHash, createdAt: at }).run();
}
