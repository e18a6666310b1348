import type { Db } from '../open';
import { passphrase } from '../schemaAccess';

/** The owner's passphrase as it is kept, and since when; undefined when she has set none. */
export function getPassphrase(db: Db) {
  return db.select({ kept: passphrase.kept, setAt: passphrase.setAt }).from(passphrase).get();
}
